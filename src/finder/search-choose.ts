/** Which candidates are traced, and which of those traced answer. */
import type { Plan } from "../plan/index.ts";
import { searchOf } from "./search-brief.ts";
import { JUDGED, type Seen } from "./search-judge.ts";
import { leastWithout } from "./search-scan.ts";
import type { Candidate, FindAnswer, Relaxing, SearchResult, SetUp, WishMet } from "./types.ts";

/** As many as are answered with, and two in reserve for those that tracing refutes. */
const TRACED = 7;
export const ANSWERED = 5;
const PER_KIND = 2;

/** The few candidates that are worth tracing: those that really differ, the best of each. */
export function chooseCandidates(plan: Plan, found: readonly SearchResult[]): Candidate[] {
  const { want } = searchOf(plan);
  const all = found.flatMap((result) => result.candidates).sort((a, b) => a.cost - b.cost);
  const out: Candidate[] = [];
  for (const most of [1, PER_KIND, TRACED])
    for (const candidate of all) {
      if (out.length >= TRACED) break;
      const alike = out.filter(({ kind }) => kind === candidate.kind).length;
      if (alike < most && !out.includes(candidate)) out.push(candidate);
    }
  if (all.length > 0 && all[0].cost > 0) {
    // nothing fits: the nearest of those that miss one wish alone say what would help
    const judged = all.map((candidate) => ({
      candidate,
      cost: candidate.cost,
      seen: seenOf(plan, candidate),
    }));
    for (const wish of JUDGED) {
      const least = leastWithout(judged, want, wish);
      if (least !== null && !out.includes(least.candidate)) out.push(least.candidate);
    }
  }
  return out;
}

function seenOf(plan: Plan, { quick, plan: { lights, camera } }: Candidate): Seen {
  const placed = lights.find(({ name }) => !plan.lights.some((l) => l.pinned && l.name === name));
  return { reading: quick, iso: camera.iso, strongest: placed?.name ?? null };
}

/** The answer from what was traced: up to five, best first. */
export function answerOf(_plan: Plan, tried: number, setUps: readonly SetUp[]): FindAnswer {
  const met = setUps.filter((setUp) => setUp.isMet);
  const costs = new Map(setUps.map((setUp) => [setUp, missesOf(setUp)]));
  const ranked = (met.length > 0 ? met : [...setUps]).sort(
    (a, b) => (costs.get(a) ?? 0) - (costs.get(b) ?? 0),
  );
  return {
    format: "tapemark/found",
    version: 1,
    isMet: met.length > 0,
    tried,
    setUps: unlike(ranked).slice(0, ANSWERED),
    relax: met.length > 0 ? null : relaxing(setUps),
  };
}

/** Without those that are another over again: of its kind, with lights and camera in its places. */
function unlike(ranked: readonly SetUp[]): SetUp[] {
  const out: SetUp[] = [];
  for (const setUp of ranked)
    if (!out.some((other) => other.kind === setUp.kind && apart_m(other.plan, setUp.plan) < ALIKE_M))
      out.push(setUp);
  return out;
}

/** Places nearer together than this are the same on set. */
const ALIKE_M = 0.3;

/** How far the things of two plans that stand farthest apart do; other fronts, or another head's turn, are far apart. */
function apart_m(a: Plan, b: Plan): number {
  const rest = ({ lights, panels, people }: Plan) =>
    JSON.stringify([lights.map(({ name, face }) => [name, face]), panels.map(({ name }) => name), people]);
  if (rest(a) !== rest(b)) return Number.POSITIVE_INFINITY;
  const places = ({ lights, panels, camera }: Plan) =>
    [...lights, ...panels, camera].map(({ position }) => position);
  const other = places(b);
  return Math.max(
    ...places(a).map((p, i) =>
      Math.hypot(...p.map((x, k) => x - (other[i]?.[k] ?? Number.POSITIVE_INFINITY))),
    ),
  );
}

function missesOf({ wishes }: SetUp): number {
  return wishes.reduce((sum, wish) => sum + (wish.isMet ? 0 : 1 + Math.abs(wish.margin ?? 4)), 0);
}

/** The wish that stands alone between a set-up and the brief, missed by least. */
function relaxing(setUps: readonly SetUp[]): Relaxing | null {
  let best: WishMet | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const { wishes } of setUps) {
    const missed = wishes.filter((wish) => !wish.isMet);
    const [only] = missed;
    if (only === undefined) continue;
    const cost = 100 * (missed.length - 1) + Math.abs(only.margin ?? 4);
    if (cost < least) [best, least] = [only, cost];
  }
  return best === null ? null : { wish: best.wish, words: relaxWords(best) };
}

function relaxWords({ wish, got }: WishMet): string {
  switch (wish) {
    case "pattern":
      return `if the pattern may be ${got}`;
    case "ratioStops":
      return `if the ratio may be ${got}`;
    case "shadowEdgeMillimetres":
      return `if the edge of the nose's shadow may be: ${got}`;
    case "backgroundStops":
      return `if the background may be ${got}`;
    case "fNumber":
      return `if the lens may be at ${got}`;
    case "headroomStops":
      return `if the headroom may be ${got}`;
    case "catchlight":
      return `if the catchlight may show ${got}`;
    case "azimuth":
    case "elevation":
      return `if the light may come from ${got}`;
    case "spreadStops":
      return `if the faces may differ by ${got}`;
    case "litSide":
    case "side":
      return `if it may be ${got}`;
    default:
      return `if the ${wish} may give way: ${got}`;
  }
}
