/** The few small moves that are worth printing: what each does to where the light comes from, and to how strong it is.
 *
 * Which are looked at is told by the quick trial of all of them; what is printed of one is read as finely as the reading
 * that stands on the same page, and set against that: two names for one light on one paper help nobody. */
import { isTold, type TriedStep, type TriedSteps } from "../finder/index.ts";
import { applyEdit, type Plan } from "../plan/index.ts";
import { patternWord, type TryReading } from "../reading/index.ts";
import type { SheetMove } from "../sheet/index.ts";

/** More than this nobody reads while a person waits. */
const MOST = 4;
/** So many are read at most: what a trial calls a change may be none. */
export const MOVES_READ = 5;
/** A turn of the light smaller than this is not told. */
const LEAST_DEG = 1.5;

/** A plan read as the printed reading was; `does` is for who waits. */
export type ReadMoved = (plan: Plan, does: string) => Promise<TryReading>;

interface Weighed {
  readonly move: SheetMove;
  readonly weight: number;
}

/** The weightiest first, no two of one thing and one kind: turning a head left and turning it right is one lesson. */
export async function movesWorthKnowing(
  plan: Plan,
  tried: TriedSteps,
  printed: TryReading,
  read: ReadMoved,
): Promise<SheetMove[]> {
  const told: Weighed[] = [];
  for (const step of likelySteps(tried).slice(0, MOVES_READ)) {
    const moved = step.edit === null ? null : applyEdit(plan, step.edit);
    if (moved === null || !moved.ok) continue;
    const after = await read(moved.plan, `${step.of}, ${step.does}`);
    const move = moveOf(step, after, printed);
    if (isWorthTelling(move)) told.push({ move, weight: weightOf(printed, after) });
    if (told.length === MOST) break;
  }
  return told.toSorted((a, b) => b.weight - a.weight).map(({ move }) => move);
}

/** As the trial weighs them, the first of each thing and kind. */
function likelySteps({ before, steps }: TriedSteps): TriedStep[] {
  const weighed = steps.flatMap((step) =>
    step.after !== null && isWorthTelling(moveOf(step, step.after, before))
      ? [{ step, weight: weightOf(before, step.after) }]
      : [],
  );
  const seen = new Set<string>();
  return weighed
    .toSorted((a, b) => b.weight - a.weight)
    .flatMap(({ step }) => {
      const kind = `${step.of} ${kindOf(step.does)}`;
      if (seen.has(kind)) return [];
      seen.add(kind);
      return [step];
    });
}

function isWorthTelling({ direction, faceStops: face, ratioStops, backgroundStops }: SheetMove): boolean {
  return (
    direction !== "" || [face, ratioStops, backgroundStops].some((stops) => stops !== null && isTold(stops))
  );
}

function moveOf({ of, does }: TriedStep, after: TryReading, before: TryReading): SheetMove {
  const change = (a: number | null, b: number | null) => (a === null || b === null ? null : b - a);
  return {
    of,
    does,
    direction: directionWords(before, after),
    faceStops: faceStops(before, after),
    ratioStops: change(before.ratioStops, after.ratioStops),
    backgroundStops: change(before.backgroundStops, after.backgroundStops),
  };
}

/** "loop now, close to Rembrandt, 10° to own right" */
function directionWords(before: TryReading, after: TryReading): string {
  const [a, b] = [before.light, after.light];
  const parts = before.pattern === after.pattern ? [] : [`${patternWord(after.pattern)} now`];
  if (after.between !== null && (parts.length > 0 || after.between !== before.between))
    parts.push(`close to ${patternWord(after.between)}`);
  if (a.azimuth !== null && b.azimuth !== null && a.elevation !== null && b.elevation !== null) {
    const aside = ((b.azimuth - a.azimuth + 540) % 360) - 180;
    const up = b.elevation - a.elevation;
    if (Math.abs(aside) >= LEAST_DEG)
      parts.push(`${Math.round(Math.abs(aside))}° to own ${aside > 0 ? "left" : "right"}`);
    if (Math.abs(up) >= LEAST_DEG) parts.push(`${Math.round(Math.abs(up))}° ${up > 0 ? "higher" : "lower"}`);
  }
  if (before.side !== after.side) parts.push(after.side);
  return parts.join(", ");
}

function faceStops(before: TryReading, after: TryReading): number | null {
  if (before.pattern === "dark" || after.pattern === "dark") return null;
  return Math.log2(after.litCheek / before.litCheek);
}

/** Another pattern counts as a stop does, ten degrees as a third. */
function weightOf(before: TryReading, after: TryReading): number {
  const [a, b] = [before.light, after.light];
  const turned =
    a.azimuth === null || b.azimuth === null || a.elevation === null || b.elevation === null
      ? 0
      : Math.hypot(((b.azimuth - a.azimuth + 540) % 360) - 180, b.elevation - a.elevation);
  const ratio =
    before.ratioStops === null || after.ratioStops === null
      ? 0
      : Math.abs(after.ratioStops - before.ratioStops);
  return (
    (before.pattern === after.pattern ? 0 : 1) + Math.abs(faceStops(before, after) ?? 0) + ratio + turned / 30
  );
}

/** "head turns 10° to own left" and "… to own right" are one kind. */
function kindOf(does: string): string {
  return does
    .replace(/[\d.½¼¾′″°]+/g, "")
    .replace(
      /\b(to the lens|from the lens|left|right|up|down|nearer|farther|forward|back|open|closed|body|head)\b/g,
      "",
    )
    .replace(/\s+/g, " ");
}
