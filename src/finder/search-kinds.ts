/** The kinds of set-up that are searched, and what each may use. */
import type { Plan } from "../plan/index.ts";
import type { KeepGoing } from "../reading/index.ts";
import { type Head, type Search, searchOf } from "./search-brief.ts";
import { searchGiven, withBlackPanel } from "./search-given.ts";
import { NOTHING_LEARNT, type Second } from "./search-join.ts";
import { FaceModel } from "./search-model.ts";
import { type ScanSize, scan } from "./search-scan.ts";
import { backgroundLights, panelsBeside, secondLights } from "./search-second.ts";
import { stanceFor } from "./search-stance.ts";
import { SetUpTrier, type Tried } from "./search-try.ts";
import type { Candidate, SearchResult, SearchTask, SetUpKind } from "./types.ts";

/** Fronts and pairs beyond so many are not searched: in the order in which the gear is listed. */
const MOST_ALONE = 6;
const MOST_PAIRS = 4;
const MOST_PANELS = 2;
/** Lights that a black panel is put beside. */
const MOST_DARKENED = 2;
/** A panel gives back, or takes away, from this reflectance on. */
const WHITE_FROM = 0.4;

export function searchTasks(plan: Plan): SearchTask[] {
  const search = searchOf(plan);
  const { heads, panels } = search;
  const all = heads.flatMap(({ fronts }, light) => fronts.map((_, front) => ({ light, front })));
  const first = all.filter(({ front }) => front === 0);
  const tasks: Omit<SearchTask, "seed">[] = [];
  const add = (kind: SetUpKind, lights: SearchTask["lights"], with_: readonly number[] = []) =>
    tasks.push({ kind, lights, panels: with_ });
  for (const one of all.slice(0, MOST_ALONE)) add("one light", [one]);
  const white = panels.flatMap((p, i) => (isWhite(p.reflectance) ? [i] : [])).slice(0, MOST_PANELS);
  for (const panel of white)
    for (const one of first.slice(0, 2)) add("one light and a white panel", [one], [panel]);
  const pairs = all.flatMap((main) =>
    first.filter((fill) => fill.light !== main.light).map((fill) => [main, fill]),
  );
  for (const pair of pairs.slice(0, MOST_PAIRS)) add("two lights", pair);
  if (search.want.backgroundStops !== null)
    for (const pair of pairs.slice(0, MOST_PAIRS)) add("a light for the background", pair);
  const black = panels.findIndex(({ reflectance }) => !isWhite(reflectance));
  for (const one of first.slice(0, 1)) {
    // it takes light of the room away, and there is none where nothing bounces
    if (black >= 0 && plan.room?.bounce) add("one light and a black panel", [one], [black]);
    if (search.want.spreadStops !== null) add("backed off", [one]);
    add("feathered", [one]);
    if (!plan.camera.pinned) add("the camera moved", [one]);
    if (!plan.people[search.person].pinned && plan.people[search.person].pose === "standing")
      add("seated", [one]);
  }
  // what is pinned and on, seen from elsewhere or with the head turned
  if (search.plan.lights.some((light) => light.on)) {
    if (!plan.camera.pinned) add("the camera moved", []);
    add("the sitter turned", []);
  }
  return tasks.map((task, seed) => ({ ...task, seed }));
}

function isWhite(reflectance: Search["panels"][number]["reflectance"]): boolean {
  return (typeof reflectance === "number" ? reflectance : Math.max(...reflectance)) >= WHITE_FROM;
}

const SIZE: ScanSize = {
  spots: 500,
  refined: 7,
  tries: 60,
  farthestAside_m: 0,
  nearest_m: 0.4,
  farthest_m: 6,
};
const FEATHERED: ScanSize = { ...SIZE, farthestAside_m: 0.8 };
/** Of each place of the camera. */
const ROUND: ScanSize = {
  spots: 150,
  refined: 3,
  tries: 40,
  farthestAside_m: 0,
  nearest_m: 0.4,
  farthest_m: 6,
};

/** Where everybody is about as far from the light. */
const BACKED: ScanSize = { ...SIZE, nearest_m: 2.5, farthest_m: 9 };

function sizeFor(kind: SetUpKind): ScanSize {
  if (kind === "feathered") return FEATHERED;
  if (kind === "backed off") return BACKED;
  return kind === "the camera moved" ? ROUND : SIZE;
}

/** What every part of a search needs to know of sitter and room, worked out beforehand: the first part begins with it
 * otherwise. */
export function readyForSearch(plan: Plan) {
  const search = searchOf(plan);
  const model = new FaceModel(search.plan, search.person);
  const [front] = search.heads.flatMap(({ fronts }) => fronts);
  // a row asks for all of it
  if (front !== undefined) model.writeLight(front, model.newRow());
}

export function runSearch(plan: Plan, task: SearchTask, keepGoing: KeepGoing): SearchResult {
  const search = searchOf(plan);
  if (task.lights.length === 0) return searchGiven(search, task.kind, keepGoing);
  const candidates: Candidate[] = [];
  let tried = 0;
  for (const stance of stanceFor(search, task)) {
    const own = { ...search, plan: stance };
    const model = new FaceModel(stance, search.person);
    const { head, front } = partOf(search.heads, task.lights[0]);
    const isBlack = task.kind === "one light and a black panel";
    const seconds = isBlack ? [] : secondsOf(own, model, task);
    if (seconds === null) continue;
    const trier = new SetUpTrier(own, model, head, front, seconds, NOTHING_LEARNT);
    const best = scan(trier, sizeFor(task.kind), task.seed, keepGoing);
    tried += trier.tried;
    if (isBlack) {
      const panel = search.panels[task.panels[0]];
      const darker = withBlackPanel(own, model, panel, best.slice(0, MOST_DARKENED), keepGoing);
      candidates.push(...darker.candidates);
      tried += darker.tried;
    } else candidates.push(...best.map((found) => candidateOf(task.kind, found)));
  }
  return { candidates: candidates.sort((a, b) => a.cost - b.cost), tried };
}

function partOf(heads: readonly Head[], { light, front }: SearchTask["lights"][number]) {
  const head = heads[light];
  return { head, front: head.fronts[front] };
}

/** Null where the kind needs something second and there is no place for it. */
function secondsOf(search: Search, model: FaceModel, task: SearchTask): Second[] | null {
  const out: Second[] = [];
  if (task.lights.length > 1) {
    const { head, front } = partOf(search.heads, task.lights[1]);
    const places = task.kind === "a light for the background" ? backgroundLights : secondLights;
    out.push(...places(search, model, head, front));
  }
  for (const panel of task.panels) out.push(...panelsBeside(model, search.panels[panel]));
  return out.length === 0 && (task.lights.length > 1 || task.panels.length > 0) ? null : out;
}

function candidateOf(kind: SetUpKind, { plan, cost, seen }: Tried): Candidate {
  return { kind, plan, cost, quick: seen.reading };
}
