/** A whole search: its parts handed to whoever is free, and the answer put together in the same order every time. */
import { answerOf, chooseCandidates, type FindAnswer, searchTasks } from "../finder/index.ts";
import type { Plan } from "../plan/index.ts";
import type { Finder, WorkOptions } from "./ports.ts";

/** The answer does not depend on how many finders there are.
 * Errors  rejects as the finders do when `options.signal` is aborted */
export async function findSetUps(
  plan: Plan,
  finders: readonly Finder[],
  options: WorkOptions = {},
): Promise<FindAnswer> {
  const tasks = searchTasks(plan);
  const found = await spread(tasks, finders, SEARCHED, options, "trying set-ups", (finder, task, own) =>
    finder.search(plan, { task }, own),
  );
  const candidates = chooseCandidates(plan, found);
  const setUps = await spread(candidates, finders, 1, options, "tracing the best", (finder, candidate, own) =>
    finder.settle(plan, { candidate }, own),
  );
  const tried = found.reduce((sum, result) => sum + result.tried, 0);
  return answerOf(plan, tried, setUps);
}

/** Where on the way from 0 to 1 the tracing begins. */
const SEARCHED = 0.6;

/** Results in the order of the items, whoever worked them out. */
async function spread<Item, Result>(
  items: readonly Item[],
  finders: readonly Finder[],
  until: number,
  options: WorkOptions,
  what: string,
  work: (finder: Finder, item: Item, options: WorkOptions) => Promise<Result>,
): Promise<Result[]> {
  const results: Result[] = [];
  const from = until === SEARCHED ? 0 : SEARCHED;
  let next = 0;
  let done = 0;
  const signal = options.signal ? { signal: options.signal } : {};
  await Promise.all(
    finders.map(async (finder) => {
      while (next < items.length) {
        const index = next++;
        results[index] = await work(finder, items[index] as Item, signal);
        done++;
        options.onProgress?.({ done: from + ((until - from) * done) / items.length, what });
      }
    }),
  );
  return results;
}
