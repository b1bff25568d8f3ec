/** What differs in what holds things up, what feeds them, and what the picture is for. */
import type { Camera, Circuit, LightHead, Print, Room, Shooting, Support } from "../plan/index.ts";
import { supportWords } from "../safety/index.ts";
import { formatLength, type LengthUnits } from "../units/index.ts";
import type { Look } from "./changes-look.ts";
import { isSame, type Said } from "./changes-words.ts";

/** A group of numbers that is told whole, as it was and as it is. */
function wholeSaid<Group>(
  which: string,
  before: Group | null,
  after: Group | null,
  text: (group: Group) => string,
): Said {
  const said = (group: Group | null) => (group === null ? "not given" : text(group));
  const change = before === null ? "added" : after === null ? "taken away" : "other numbers";
  return { which, before: said(before), after: said(after), change };
}

const tidy = (value: number) => String(Number(value.toPrecision(4)));

export function supportSaid(before: Support | null, after: Support | null, { units }: Look): Said {
  return wholeSaid("support", before, after, (support) => supportWords(support, units));
}

export function headSaid(before: LightHead | null, after: LightHead | null): Said {
  return wholeSaid("head", before, after, headText);
}

function headText({ charging, circuit, duration, lampWatts, modifier, name, recycle }: LightHead): string {
  const which = [name, modifier].filter((each) => each !== undefined).map((each) => `${each}, `);
  const flash =
    duration === null ? "duration not known" : `${duration.measured} ${tidy(duration.seconds * 1000)} ms`;
  const ready = recycle === null ? "recycle not known" : `recycle ${tidy(recycle)} s`;
  return `${which.join("")}${ready}, ${flash}, lamp ${tidy(lampWatts)} W, ${tidy(100 * charging)} % stored, circuit ${circuit ?? "the first"}`;
}

export function pixelsSaid(before: Camera["pixels"], after: Camera["pixels"]): Said {
  return wholeSaid("pixels", before, after, ({ width, height }) => `${width} × ${height}`);
}

export function sprinklersSaid(before: Room["sprinklers"], after: Room["sprinklers"], { units }: Look): Said {
  return wholeSaid(
    "sprinklers",
    before,
    after,
    ({ below }) => `${formatLength(below, units)} under the ceiling`,
  );
}

export function shootingSaid(before: Shooting | null, after: Shooting | null): Said {
  return wholeSaid(
    "shooting",
    before,
    after,
    ({ everySeconds, subjectSpeed }) =>
      `a frame every ${tidy(everySeconds)} s, ${tidy(subjectSpeed)} m/s before the lens`,
  );
}

export function circuitsSaid(before: readonly Circuit[], after: readonly Circuit[]): Said {
  const text = (circuits: readonly Circuit[]) =>
    circuits.length === 0 ? "none given" : circuits.map(circuitText).join("; ");
  return { which: "circuits", before: text(before), after: text(after), change: "other numbers" };
}

function circuitText({ amps, feeds, name, otherWatts, volts }: Circuit): string {
  const other = otherWatts === 0 ? "" : `, ${tidy(otherWatts)} W beside`;
  return `${name}, ${tidy(amps)} A at ${tidy(volts)} V, for ${feeds}${other}`;
}

/** What is asked of the picture beside its size; none where that is the same. */
export function printedSaid(before: Print, after: Print, units: LengthUnits): Said[] {
  const tellers: readonly (readonly [keyof Print, string, (print: Print) => string])[] = [
    ["use", "use", ({ use }) => use || "not named"],
    [
      "viewingDistance",
      "looked at from",
      ({ viewingDistance: from }) => (from === null ? "not given" : formatLength(from, units)),
    ],
    ["asksPpi", "printer asks", ({ asksPpi }) => (asksPpi === null ? "nothing" : `${tidy(asksPpi)} ppi`)],
    [
      "cropWidth",
      "crop",
      ({ cropWidth }) => (cropWidth === null ? "as much as fits" : `${tidy(100 * cropWidth)} % of the width`),
    ],
  ];
  return tellers
    .filter(([key]) => !isSame(before[key], after[key]))
    .map(([, which, text]) => ({ which, before: text(before), after: text(after), change: "another" }));
}
