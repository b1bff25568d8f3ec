import { useEffect, useRef, useState } from "preact/hooks";
import { fNumberOfParts, formatFStops, formatOff, METER_STOPS, parseFStops, TENTHS } from "../units/index.ts";
import type { LiveReading } from "../workbench/index.ts";
import { type Refusal, sendReading } from "./client.ts";
import { sentence } from "./pair-screen.tsx";

/** As the meter shows it: the engraved stop, then its tenths. How far it lies off is said before it is sent. */
export function ReadingEntry({ reading, done }: { reading: LiveReading; done: () => void }) {
  const { meter, light, should } = reading;
  const [stop, setStop] = useState<string | null>(null);
  const [tenths, setTenths] = useState(0);
  const [isSending, setSending] = useState(false);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const fNumber = stop === null ? null : fNumberOfParts(stop, tenths);
  const wanted = should === null ? null : parseFStops(should);
  const off = fNumber === null || wanted === null ? null : formatOff(fNumber, wanted);

  async function send() {
    if (fNumber === null) return;
    setSending(true);
    const said = await sendReading({ meter, light, fNumber });
    setSending(false);
    setRefusal(said);
    if (said === null) done();
  }

  const entry = useRef<HTMLDivElement>(null);
  // with the line that it belongs to, above what lies under the thumb
  useEffect(() => entry.current?.parentElement?.scrollIntoView({ block: "start" }), []);

  return (
    <div class="entry" ref={entry}>
      <fieldset class="keys stops">
        <legend>stop</legend>
        {METER_STOPS.map((each) => (
          <button
            key={each}
            type="button"
            aria-label={`f/${each}`}
            aria-pressed={stop === each}
            onClick={() => setStop(each)}
          >
            {each}
          </button>
        ))}
      </fieldset>
      <fieldset class="keys tenths">
        <legend>and tenths</legend>
        {TENTHS.map((each) => (
          <button
            key={each}
            type="button"
            aria-label={`${each} tenths`}
            aria-pressed={stop !== null && tenths === each}
            disabled={stop === null}
            onClick={() => setTenths(each)}
          >
            {each}
          </button>
        ))}
      </fieldset>
      <p class="value" role="status">
        <strong>{fNumber === null ? "tap the stop first" : formatFStops(fNumber)}</strong>
        {off !== null && <em>{off}</em>}
      </p>
      <button type="button" class="go" disabled={fNumber === null || isSending} onClick={() => void send()}>
        {isSending ? "sending" : "put it into the plan"}
      </button>
      {refusal !== null && (
        <p class="refused" role="alert">
          <strong>{sentence(refusal.problem)}</strong> {sentence(refusal.cure)}
        </p>
      )}
    </div>
  );
}
