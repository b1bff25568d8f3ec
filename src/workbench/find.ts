/** A whole search: its parts handed to whoever is free, and the answer put together in the same order every time. */
import {
  ANSWERED,
  answerOf,
  type Candidate,
  chooseCandidates,
  type FindAnswer,
  searchTasks,
} from "../finder/index.ts";
import type { Plan } from "../plan/index.ts";
import type { Finder, WorkOptions } from "./ports.ts";

/** What a search is split into. */
export type SearchFinder = Pick<Finder, "search" | "settle" | "hold">;

/** The answer does not depend on how many finders there are.
 * `holds` false leaves the hold zones out, which take as long as the rest.
 * Errors  BriefError where there is nothing to search by; rejects as the finders do when `options.signal` is aborted */
export async function findSetUps(
  plan: Plan,
  finders: readonly SearchFinder[],
  options: WorkOptions & { readonly holds?: boolean } = {},
): Promise<FindAnswer> {
  const tasks = searchTasks(plan);
  const search = stage(options, 0, SEARCHED, "trying set-ups");
  const found = await spread(tasks, finders, search, (finder, task, own) =>
    finder.search(plan, { task }, own),
  );
  const candidates = chooseCandidates(plan, found);
  const trace = stage(options, SEARCHED, TRACED, "tracing the best");
  const settle = (finder: SearchFinder, candidate: Candidate, own: WorkOptions) =>
    finder.settle(plan, { candidate }, own);
  const setUps = await spread(candidates.slice(0, ANSWERED), finders, trace, settle);
  // those in reserve only where tracing refuted some
  if (!setUps.every(({ isMet }) => isMet))
    setUps.push(...(await spread(candidates.slice(ANSWERED), finders, trace, settle)));
  const tried = found.reduce((sum, result) => sum + result.tried, 0);
  const answer = answerOf(plan, tried, setUps);
  if (options.holds === false) return answer;
  const walk = stage(options, TRACED, 1, "walking round the mark");
  const person = plan.brief?.person ?? 0;
  const held = await spread(answer.setUps, finders, walk, async (finder, setUp, own) =>
    setUp.isMet ? { ...setUp, hold: await finder.hold(setUp.plan, { person }, own) } : setUp,
  );
  return { ...answer, setUps: held };
}

/** Where on the way from 0 to 1 the tracing begins and ends. */
const SEARCHED = 0.5;
const TRACED = 0.8;

interface Stage extends WorkOptions {
  readonly from: number;
  readonly until: number;
  readonly what: string;
}

function stage(options: WorkOptions, from: number, until: number, what: string): Stage {
  return { ...options, from, until, what };
}

/** Results in the order of the items, whoever worked them out. */
async function spread<Item, Result>(
  items: readonly Item[],
  finders: readonly SearchFinder[],
  { from, until, what, signal, onProgress }: Stage,
  work: (finder: SearchFinder, item: Item, options: WorkOptions) => Promise<Result>,
): Promise<Result[]> {
  const results: Result[] = [];
  let next = 0;
  let done = 0;
  await Promise.all(
    finders.map(async (finder) => {
      while (next < items.length) {
        const index = next++;
        results[index] = await work(finder, items[index] as Item, signal ? { signal } : {});
        done++;
        onProgress?.({ done: from + ((until - from) * done) / items.length, what });
      }
    }),
  );
  return results;
}
