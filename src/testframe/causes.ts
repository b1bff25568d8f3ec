/** Why a frame differs from its plan. What the frame itself proves (settings, a band, a head held otherwise) comes first;
 * what may be off on set is tried on the plan, one thing at a time: its step that comes nearest to all that is seen, and
 * how much of it that explains. */
import type { TryReading } from "../reading/index.ts";
import { bandCause, headCause, settingsCause, turnedHead, withHead } from "./causes-seen.ts";
import { type Step, stepsOf } from "./causes-steps.ts";
import type { ComparedFrame, Difference, Observed } from "./compare-observed.ts";
import { litCheekStops, type PlannedFace } from "./compare-planned.ts";
import type { LikelyCause } from "./types.ts";

/** In the order of `Observed`: exposure, ratio, background (stops), azimuth, elevation (degrees). */
type Effect = readonly (number | null)[];

/** Less than this of what is off, in squared standard deviations, is not worth a cause. */
const WORTH = 2.5;
/** Causes told at once. */
const MOST = 3;
/** One that explains so much less than the best is not told: e^-3 of its weight. */
const BEHIND = 6;

export function likelyCauses(
  frame: ComparedFrame,
  reading: TryReading,
  planned: PlannedFace,
  observed: Observed,
): LikelyCause[] {
  const turned = turnedHead(frame, planned);
  const seen = [bandCause(frame), settingsCause(frame, observed), turned && headCause(turned)].filter(
    (cause) => cause !== null,
  );
  // a band darkens what it crosses: what lights and walls do is not to be told from such a frame
  if (frame.photo.image.band !== null) return seen;
  // the plan with the head as it is held in the frame: what that explains is not looked for on set
  const plan = turned === null ? frame.plan : withHead(frame, turned);
  const held = turned === null ? reading : frame.read(plan);
  const differences = unexplained(observed, effectOf(frame, reading, held));
  const total = chi2(differences, []);
  if (total < WORTH) return seen;
  const tried = stepsOf(plan, frame.person)
    .map((step) => fitted(frame, held, step, differences, total))
    .filter(({ gain }) => gain > WORTH)
    .toSorted((a, b) => b.gain - a.gain);
  const best = tried[0]?.gain ?? 0;
  const told = tried.filter(({ gain }) => gain > best - BEHIND).slice(0, MOST);
  const sum = told.reduce((all, { gain }) => all + Math.exp((gain - best) / 2), 0);
  return [
    ...seen,
    ...told.map(({ step, amount, gain }) => ({
      ...step.words(amount),
      cause: step.cause,
      weight: Math.exp((gain - best) / 2) / sum,
    })),
  ];
}

/** What differs beyond what the file's settings and the head as it is held make of it. */
function unexplained(observed: Observed, held: Effect): (Difference | null)[] {
  const { exposure, ratio, background, azimuth, elevation, settingsStops } = observed;
  return [exposure, ratio, background, azimuth, elevation].map((difference, i) => {
    if (difference === null) return null;
    const explained = (held[i] ?? 0) + (i === 0 ? settingsStops : 0);
    return { ...difference, amount: difference.amount - explained };
  });
}

function chi2(differences: readonly (Difference | null)[], effect: Effect, times = 1): number {
  let sum = 0;
  differences.forEach((difference, i) => {
    if (difference === null) return;
    sum += ((difference.amount - times * (effect[i] ?? 0)) / difference.sure) ** 2;
  });
  return sum;
}

/** The step taken as often as comes nearest to what is seen, within what happens on set; larger ones are less likely. */
function fitted(
  frame: ComparedFrame,
  reading: TryReading,
  step: Step,
  differences: readonly (Difference | null)[],
  total: number,
): { step: Step; amount: number; gain: number } {
  const effect = effectOf(frame, reading, frame.read(step.plan));
  if (step.isWhole) return { step, amount: 1, gain: total - chi2(differences, effect) - step.unlikely };
  let along = 0;
  let square = 1 / step.usual ** 2;
  differences.forEach((difference, i) => {
    const e = effect[i];
    if (difference === null || e === null) return;
    along += (e * difference.amount) / difference.sure ** 2;
    square += (e / difference.sure) ** 2;
  });
  const amount = Math.max(step.least, Math.min(step.most, along / square));
  const left = chi2(differences, effect, amount) + (amount / step.usual) ** 2;
  return { step, amount, gain: total - left - step.unlikely };
}

function effectOf({ plan, person }: ComparedFrame, before: TryReading, after: TryReading): Effect {
  const change = (a: number | null, b: number | null) => (a === null || b === null ? null : b - a);
  const turn = change(before.light.azimuth, after.light.azimuth);
  return [
    change(litCheekStops(plan, person, before.litCheek), litCheekStops(plan, person, after.litCheek)),
    change(before.ratioStops, after.ratioStops),
    change(before.backgroundStops, after.backgroundStops),
    turn === null ? null : turn - 360 * Math.round(turn / 360),
    change(before.light.elevation, after.light.elevation),
  ];
}
