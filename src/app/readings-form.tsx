import { useEffect, useRef, useState } from "preact/hooks";
import { ALL_LIGHTS, type Edit, type Plan } from "../plan/index.ts";
import { fNumberOfParts, formatFStops, METER_STOPS, partsOfFNumber, TENTHS } from "../units/index.ts";
import { type Bench, makeEdit } from "./bench.ts";
import { Either } from "./edge-settings.tsx";
import { parseNumber } from "./entries.ts";
import { ChoiceField, rounded } from "./fields.tsx";
import { NumberField } from "./number-field.tsx";
import {
  addReading,
  changeReading,
  type Draft,
  draftOf,
  firstDraft,
  heldAt,
  settled,
} from "./readings-draft.ts";
import { parseMeter } from "./readings-entries.ts";
import { AIM_WORDS, aimsOf, heldPlaces, receptorsOf } from "./readings-places.ts";

interface FormProps {
  readonly bench: Bench;
  readonly plan: Plan;
  /** the reading that is changed; null where one is added */
  readonly changed: number | null;
  readonly leave: () => void;
}

/** A reading as it is made: which light, where, how the meter was held, what it showed. Tapped with one thumb in the dark,
 * or typed. */
export function ReadingForm({ bench, plan, changed, leave }: FormProps) {
  const [kept, setDraft] = useState<Draft>(() => firstDraft(plan));
  const title = useRef<HTMLHeadingElement>(null);
  const reading = changed === null ? undefined : plan.readings[changed];
  useEffect(() => {
    if (reading === undefined) return;
    setDraft(draftOf(plan, reading));
    title.current?.focus();
  }, [changed]);
  const draft = settled(plan, kept);
  const held = heldAt(plan, draft);
  const put = (change: Partial<Draft>) => setDraft(settled(plan, { ...draft, ...change }));
  const take = (edit: Edit | null, done: string): string | null => {
    if (edit === null) return null;
    const why = makeEdit(bench, edit);
    if (why === null) {
      bench.say.set(done);
      put({ fNumber: null });
      leave();
    }
    return why;
  };
  const [why, setWhy] = useState<string | null>(null);
  if (held === null)
    return (
      <p class="quiet">
        Nobody and no meter is in the plan: there is no place to read at. Add one of them first.
      </p>
    );
  const shown = draft.fNumber === null ? "" : formatFStops(draft.fNumber);
  const add = () => setWhy(take(addReading(plan, draft), `${shown} added`));
  const change = () =>
    setWhy(changed === null ? null : take(changeReading(plan, changed, draft), `changed to ${shown}`));
  return (
    <section class="reading-form" aria-labelledby="reading-form-title">
      <h2 id="reading-form-title" ref={title} tabIndex={-1}>
        {reading === undefined ? "A reading" : `Change ${reading.name}`}
      </h2>
      <div class="reading-choices">
        <ChoiceField
          label="light"
          of="reading"
          value={draft.light}
          choices={[
            [ALL_LIGHTS, "all that are on"],
            ...plan.lights.map(({ name }) => [name, `${name} alone`] as const),
          ]}
          choose={(light) => put({ light })}
        />
        <ChoiceField
          label="held at"
          of="reading"
          value={draft.at}
          choices={heldPlaces(plan).map(({ key, name }) => [key, name] as const)}
          choose={(at) => {
            const next = heldPlaces(plan).find(({ key }) => key === at);
            put({ at, receptor: next?.receptor ?? draft.receptor, aim: "planned" });
          }}
        />
        <fieldset class="row large-row">
          <legend>receptor</legend>
          {receptorsOf(held).map((receptor) => (
            <Either
              key={receptor}
              text={receptor}
              on={draft.receptor === receptor}
              choose={() => put({ receptor, aim: receptor === held.receptor ? "planned" : draft.aim })}
            />
          ))}
        </fieldset>
        <fieldset class="row large-row">
          <legend>turned</legend>
          {aimsOf(plan, held, draft.light, draft.receptor).map((aim) => (
            <Either key={aim} text={AIM_WORDS[aim]} on={draft.aim === aim} choose={() => put({ aim })} />
          ))}
        </fieldset>
        <NumberField
          label="ISO"
          of="reading"
          text={String(rounded(draft.iso, 1))}
          parse={(text) => parseNumber(text, /^\s*iso\s*/i, "100")}
          commit={(iso) => {
            if (!(iso >= 1)) return "ISO is 1 or more.";
            put({ iso });
            return null;
          }}
        />
      </div>
      <Value fNumber={draft.fNumber} put={(fNumber) => put({ fNumber })} />
      <p class="row large-row">
        {reading === undefined ? (
          <button type="button" class="begin" disabled={draft.fNumber === null} onClick={add}>
            add the reading
          </button>
        ) : (
          <>
            <button type="button" class="begin" disabled={draft.fNumber === null} onClick={change}>
              keep the change
            </button>
            <button
              type="button"
              onClick={() => {
                put({ fNumber: null });
                leave();
              }}
            >
              leave it as it was
            </button>
          </>
        )}
      </p>
      {why !== null && (
        <p class="alert" role="alert">
          {why}
        </p>
      )}
    </section>
  );
}

/** The engraved stop and its tenths, as the meter shows them. */
function Value({ fNumber, put }: { fNumber: number | null; put: (fNumber: number) => void }) {
  const parts = fNumber === null ? null : partsOfFNumber(fNumber);
  return (
    <div class="reading-value">
      <NumberField
        label="reads"
        of="reading"
        text={fNumber === null ? "" : formatFStops(fNumber)}
        parse={parseMeter}
        commit={(value) => {
          put(value);
          return null;
        }}
        step={(way, large) => {
          put((fNumber ?? fNumberOfParts("8", 0)) * 2 ** ((way * (large ? 10 : 1)) / 20));
          return null;
        }}
      />
      <fieldset class="keys">
        <legend>stop</legend>
        {METER_STOPS.map((stop) => (
          <button
            key={stop}
            type="button"
            aria-label={`f/${stop}`}
            aria-pressed={parts?.stop === stop}
            onClick={() => put(fNumberOfParts(stop, parts?.tenths ?? 0))}
          >
            {stop}
          </button>
        ))}
      </fieldset>
      <fieldset class="keys">
        <legend>and tenths</legend>
        {TENTHS.map((tenths) => (
          <button
            key={tenths}
            type="button"
            aria-pressed={parts !== null && parts.tenths === tenths}
            disabled={parts === null}
            onClick={() => parts !== null && put(fNumberOfParts(parts.stop, tenths))}
          >
            {tenths}
            <span class="visually-hidden"> tenths</span>
          </button>
        ))}
      </fieldset>
    </div>
  );
}
