/** By how much the head may turn, the chin lift, the light rise or the person drift before the face shows another
 * pattern: by trying. */
import { type Change, type FaceTrial, NO_CHANGE } from "./trial.ts";
import type { FaceReading, Margin, Pattern } from "./types.ts";

/** Per kind of change: how far apart it is tried, how finely the border is then found, how far it is looked for; in the
 * units of Change, and what one of those is in the units of Margin. */
const WAYS = [
  { change: "turn", step: 4, finest: 0.5, most: 60, unit: "degrees", per: 1 },
  { change: "raise", step: 4, finest: 0.5, most: 40, unit: "degrees", per: 1 },
  { change: "lightHeight", step: 0.12, finest: 0.015, most: 0.96, unit: "centimetres", per: 100 },
  { change: "driftAside", step: 0.12, finest: 0.015, most: 0.6, unit: "centimetres", per: 100 },
  { change: "driftAhead", step: 0.12, finest: 0.015, most: 0.6, unit: "centimetres", per: 100 },
] as const satisfies readonly Way[];

interface Way {
  readonly change: keyof Change;
  readonly step: number;
  readonly finest: number;
  readonly most: number;
  readonly unit: Margin["unit"];
  readonly per: number;
}

/** Every way to another pattern; `light` names the one that is raised, null where there is none. */
export function readMargins(trial: FaceTrial, now: Pattern, light: string | null): Margin[] {
  if (now === "dark") return [];
  const out: Margin[] = [];
  for (const way of WAYS) {
    if (way.change === "lightHeight" && light === null) continue;
    for (const sign of [1, -1]) {
      const at = (x: number) => trial.patternAt({ ...NO_CHANGE, [way.change]: sign * x });
      const found = firstOther(at, now, way);
      if (found)
        out.push({
          change: way.change,
          amount: round(sign * found.amount * way.per),
          unit: way.unit,
          light: way.change === "lightHeight" ? light : null,
          pattern: found.pattern,
        });
    }
  }
  return out;
}

/** The smallest signed change of head.turn, or of head.tip, that makes it another pattern (plan format). */
export function nearestOf(margins: readonly Margin[]): FaceReading["nearest"] {
  const smallest = (change: Margin["change"]) =>
    margins
      .filter((m) => m.change === change)
      .reduce<Margin | null>(
        (best, m) => (best && Math.abs(best.amount) <= Math.abs(m.amount) ? best : m),
        null,
      );
  const turn = smallest("turn");
  const raise = smallest("raise");
  const first = turn && (!raise || Math.abs(turn.amount) <= Math.abs(raise.amount)) ? turn : raise;
  if (!first) return null;
  return {
    pattern: first.pattern,
    turnDegrees: turn?.pattern === first.pattern ? turn.amount : null,
    raiseDegrees: raise?.pattern === first.pattern ? raise.amount : null,
  };
}

/** Steps outward, then halves the step that first shows another pattern. */
function firstOther(
  patternAt: (amount: number) => Pattern,
  now: Pattern,
  { step, finest, most }: Way,
): { amount: number; pattern: Pattern } | null {
  for (let outer = step; outer <= most + finest / 2; outer += step) {
    let pattern = patternAt(outer);
    if (pattern === now) continue;
    let inner = outer - step;
    let changed = outer;
    while (changed - inner > finest) {
      const middle = (inner + changed) / 2;
      const there = patternAt(middle);
      if (there === now) inner = middle;
      else {
        changed = middle;
        pattern = there;
      }
    }
    return { amount: changed, pattern };
  }
  return null;
}

/** Halves of a unit: no finer than it was looked for. */
function round(amount: number): number {
  return Math.round(2 * amount) / 2;
}
