import { useEffect, useState } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import type { PlanReading } from "../reading/index.ts";
import type { Bench } from "./bench.ts";
import { fNumberText, parseFNumber } from "./entries.ts";
import { ChoiceField } from "./fields.tsx";
import { useKept } from "./kept.ts";
import type { LightPart } from "./light-part.ts";
import {
  fNumberAt,
  fNumberFromShare,
  onlyLight,
  type ReadingPlace,
  readingPlaces,
  setByReading,
} from "./light-reads.ts";
import { NumberField } from "./number-field.tsx";

interface ReadsFieldsProps extends LightPart {
  readonly plan: Plan;
  readonly reading: PlanReading | null;
}

/** What this light does by itself where a meter is held, direct and bounced together; what is typed sets its power. */
export function ReadsFields({ bench, index, light, plan, reading }: ReadsFieldsProps) {
  const places = readingPlaces(plan);
  const [kept, setKept] = useKept("reads-at", "");
  const place = places.find(({ words }) => words === kept) ?? places[0];
  const share = reading === null || place === undefined ? null : fNumberFromShare(reading, place, light.name);
  const alone = useAlone(bench, plan, index, place !== undefined && share === null);
  if (place === undefined) return null;
  const fNumber = share ?? (alone === null ? null : fNumberAt(alone, place, plan.camera.iso));
  return (
    <fieldset class="group">
      <legend class="visually-hidden">what {light.name} reads alone</legend>
      <NumberField
        label="alone reads"
        of={light.name}
        text={fNumber === null ? "…" : fNumberText(fNumber)}
        parse={parseFNumber}
        commit={(wanted) => setByReading(bench, bench.session.computer, index, place, wanted)}
      />
      <ChoiceField
        label="at"
        of={light.name}
        value={place.words}
        choices={places.map(({ words }: ReadingPlace) => [words, words] as const)}
        choose={setKept}
      />
    </fieldset>
  );
}

const STILL_MS = 250;

/** A reading of this light by itself, where the one on screen does not hold it: asked for once the plan lies still. */
function useAlone(bench: Bench, plan: Plan, index: number, wanted: boolean): PlanReading | null {
  const [alone, setAlone] = useState<{ of: Plan; reading: PlanReading } | null>(null);
  useEffect(() => {
    if (!wanted) return;
    const stop = new AbortController();
    const timer = setTimeout(() => {
      bench.session.computer.read(onlyLight(plan, index), "fine", { signal: stop.signal }).then(
        (reading) => setAlone({ of: plan, reading }),
        () => {
          // stopped by a newer plan, or failed: then the reading on screen says so
        },
      );
    }, STILL_MS);
    return () => {
      clearTimeout(timer);
      stop.abort();
    };
  }, [bench, plan, index, wanted]);
  return alone?.of === plan ? alone.reading : null;
}
