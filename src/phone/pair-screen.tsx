import { useEffect, useRef, useState } from "preact/hooks";
import { pair, type Refusal, suggestedName } from "./client.ts";
import type { Link } from "./connection.ts";

interface PairProps {
  readonly link: Link;
  /** it could look until now */
  readonly wasPaired: boolean;
  readonly paired: () => void;
}

/** Six digits off the screen of the workbench, and what this device is called there. */
export function PairScreen({ link, wasPaired, paired }: PairProps) {
  const [code, setCode] = useState("");
  const [name, setName] = useState(() => suggestedName(navigator.userAgent));
  const [isAsking, setAsking] = useState(false);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const wait = useCountdown(refusal);
  const input = useRef<HTMLInputElement>(null);
  const digits = code.replace(/\D/g, "");
  const isWhole = digits.length === 6 && name.trim() !== "";

  async function ask() {
    if (!isWhole || isAsking || wait > 0) return;
    setAsking(true);
    const said = await pair(digits, name.trim());
    setAsking(false);
    setRefusal(said);
    if (said === null) return paired();
    // typed over, or sent again as it stands
    input.current?.focus();
    input.current?.select();
  }

  return (
    <main class="alone">
      <h1>Tapemark</h1>
      {link.state === "ended" && (
        <p class="ended" role="alert">
          <strong>Ended by the workbench.</strong> {sentence(link.why)}
        </p>
      )}
      {link.state === "unpaired" && wasPaired && (
        <p class="ended" role="alert">
          <strong>The workbench does not know this device any more.</strong> It was taken off the list, or
          sharing was switched off.
        </p>
      )}
      <form
        class="pair"
        onSubmit={(event) => {
          event.preventDefault();
          void ask();
        }}
      >
        <label class="code">
          <span>the six digits that the workbench shows</span>
          <input
            ref={input}
            value={code}
            inputMode="numeric"
            autoComplete="one-time-code"
            maxLength={7}
            placeholder="000 000"
            aria-invalid={refusal !== null}
            aria-describedby={refusal === null ? undefined : "refused"}
            onInput={(event) => setCode(grouped(event.currentTarget.value))}
          />
        </label>
        <label class="name">
          <span>this device is called</span>
          <input
            value={name}
            maxLength={40}
            autoComplete="off"
            onInput={(event) => setName(event.currentTarget.value)}
          />
        </label>
        {refusal !== null && (
          <p class="refused" id="refused" role="alert">
            <strong>{sentence(refusal.problem)}</strong>{" "}
            {wait > 0 ? `Wait ${wait} s, then try again.` : sentence(refusal.cure)}
          </p>
        )}
        <button type="submit" class="go" disabled={!isWhole || isAsking || wait > 0}>
          {isAsking ? "asking" : "look at the plan"}
        </button>
      </form>
      <p class="quiet">
        In the workbench: step 3, place, “show on a phone”. A code is good for one device and for five
        minutes.
      </p>
    </main>
  );
}

/** "123 456", as it stands in the workbench. */
function grouped(typed: string): string {
  const digits = typed.replace(/\D/g, "").slice(0, 6);
  return digits.length > 3 ? `${digits.slice(0, 3)} ${digits.slice(3)}` : digits;
}

export function sentence(text: string): string {
  const begun = text.charAt(0).toUpperCase() + text.slice(1);
  return /[.?!]$/.test(begun) || begun === "" ? begun : `${begun}.`;
}

/** Seconds that are still to wait. */
function useCountdown(refusal: Refusal | null): number {
  const [left, setLeft] = useState(0);
  useEffect(() => {
    setLeft(refusal?.wait_s ?? 0);
    if (refusal === null || refusal.wait_s === 0) return;
    const timer = setInterval(() => setLeft((seconds) => Math.max(0, seconds - 1)), 1000);
    return () => clearInterval(timer);
  }, [refusal]);
  return left;
}
