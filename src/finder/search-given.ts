/** Set-ups in which no light is placed: the lights that are pinned stay, and the camera goes round or the sitter turns; and
 * a black panel put beside a light that was found, where the room fills too much. Each is read whole, the fast way. */
import type { Panel, Plan } from "../plan/index.ts";
import { type KeepGoing, Memory, quickTrier } from "../reading/index.ts";
import { step } from "../reading/progress.ts";
import type { Search } from "./search-brief.ts";
import { costOf, edginess, type Seen } from "./search-judge.ts";
import type { FaceModel } from "./search-model.ts";
import { panelsBeside } from "./search-second.ts";
import { cameraRound, framed } from "./search-stance.ts";
import type { Tried } from "./search-try.ts";
import type { Candidate, SearchResult, SetUpKind } from "./types.ts";

/** Degrees to either side. */
const ROUND_DEG = [-60, -45, -30, -20, -10, 0, 10, 20, 30, 45, 60] as const;
const TURN_DEG = [-40, -30, -20, -10, 10, 20, 30, 40] as const;
/** As far as a head is turned for a picture (common practice, no source). */
const MOST_TURN_DEG = 80;
const KEPT = 2;
const EDGINESS = 0.05;

export function searchGiven(search: Search, kind: SetUpKind, keepGoing: KeepGoing): SearchResult {
  const plans = kind === "the sitter turned" ? turned(search) : roundTheSitter(search);
  return readAll(search, kind, search.plan, plans, keepGoing);
}

function roundTheSitter(search: Search): Plan[] {
  return ROUND_DEG.flatMap((by) => cameraRound(search, by) ?? []).map((plan) => framed(search, plan));
}

function turned(search: Search): Plan[] {
  const { person, plan } = search;
  const now = plan.people[person].head.turn;
  return TURN_DEG.filter((by) => Math.abs(now + by) <= MOST_TURN_DEG).map((by) => ({
    ...plan,
    people: plan.people.map((who, i) =>
      i === person ? { ...who, head: { ...who.head, turn: now + by } } : who,
    ),
  }));
}

/** The best of a light alone, each with the panel at the places beside the face, on its shadow side. */
export function withBlackPanel(
  search: Search,
  model: FaceModel,
  panel: Panel,
  alone: readonly Tried[],
  keepGoing: KeepGoing,
): SearchResult {
  const places = panelsBeside(model, panel).flatMap((second) => (second.kind === "panel" ? [second] : []));
  const plans = alone.flatMap(({ plan, spot }) =>
    places
      .filter(({ side }) => side !== Math.sign(spot.azimuth_deg))
      .map((second) => ({ ...plan, panels: [...plan.panels, second.panel] })),
  );
  const [first] = plans;
  if (first === undefined) return { candidates: [], tried: 0 };
  return readAll(search, "one light and a black panel", first, plans, keepGoing);
}

function readAll(
  search: Search,
  kind: SetUpKind,
  base: Plan,
  plans: readonly Plan[],
  keepGoing: KeepGoing,
): SearchResult {
  const { want, person } = search;
  if (plans.length === 0) return { candidates: [], tried: 0 };
  const trier = quickTrier(base, person, new Memory());
  const found = plans.map((plan, i) => {
    step(keepGoing, i / plans.length);
    const reading = trier.read(plan, ["headroomStops"]);
    const seen: Seen = { reading, iso: plan.camera.iso, strongest: strongestIn(plan, reading.catchlights) };
    const cost = costOf(want, seen);
    return {
      candidate: { kind, plan, cost, quick: reading } satisfies Candidate,
      rank: cost + EDGINESS * edginess(want, seen),
    };
  });
  found.sort((a, b) => a.rank - b.rank);
  return { candidates: found.slice(0, KEPT).map(({ candidate }) => candidate), tried: plans.length };
}
/** The only light that is on; of several, the first that shows in an eye: tracing tells which is the strongest. */
function strongestIn(plan: Plan, shown: Seen["reading"]["catchlights"]): string | null {
  const on = plan.lights.filter((light) => light.on);
  return (on.length === 1 ? on[0]?.name : shown[0]?.light) ?? null;
}
