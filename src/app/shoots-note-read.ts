/** The library finds plans by their pattern, which only the workbench works out. */
import type { Plan } from "../plan/index.ts";
import type { Bench } from "./bench.ts";

/** Tells the library the pattern of what is kept, once the fine reading of it is there. What is kept in this browser and
 * does not lie in the library yet is told once it does; a library that does not answer, at the next reading. */
export function noteReads({
  library,
  news,
  results,
  session,
}: Pick<Bench, "library" | "news" | "results" | "session">): void {
  if (library === null) return;
  const told = new Map<string, string | null>();
  let settled: Plan | null = null;
  const note = async (key: string, pattern: string | null) => {
    if ((await library.shootOf(key)) === null) told.delete(key);
    else await library.noteRead(key, { pattern });
  };
  const follow = () => {
    const { key, plan, saving } = session.get();
    const { reading, readingOf, readingQuality } = results.store.get();
    if (plan === settled || readingOf !== plan || readingQuality !== "fine") return;
    if (key === "" || saving.state !== "saved") return;
    settled = plan;
    const pattern = reading?.people[plan.brief?.person ?? 0]?.face?.pattern ?? null;
    if (told.get(key) === pattern) return;
    told.set(key, pattern);
    note(key, pattern).catch(() => told.delete(key));
  };
  session.subscribe(follow);
  results.store.subscribe(follow);
  news.subscribe((each) => {
    const { key } = session.get();
    if (each.kind !== "work" || each.key !== key || told.has(key)) return;
    settled = null;
    follow();
  });
}
