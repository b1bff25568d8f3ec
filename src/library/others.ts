/** Whether another process wrote into the library: a second copy, or a command of the shell. */
import type { News } from "../workbench/index.ts";
import type { Library } from "./open.ts";

const EVERY_MS = 500;

interface WorkRow {
  readonly key: string;
  readonly revision: number;
  readonly by: string | null;
}

/** Looks twice a second. The answer ends it. */
export function watchOthers(library: Library, tell: (news: News) => void): () => void {
  const look = lookForOthers(library);
  const timer = setInterval(() => {
    for (const news of look()) tell(news);
  }, EVERY_MS);
  timer.unref();
  return () => clearInterval(timer);
}

/** Each call gives what others changed since the one before: the works by name, the gear book and the shelf (those saved here
 * meanwhile as well), and that there may be other news of shoots. Nothing where nobody wrote, which costs next to nothing. */
export function lookForOthers({ db }: Library): () => News[] {
  const version = db.prepare("PRAGMA data_version");
  const works = db.prepare("SELECT key, revision, by FROM works");
  const documents = (["gear", "shelf"] as const).map((kind) => {
    const row = db.prepare(`SELECT revision FROM ${kind}`);
    const revision = () => (row.get() as { revision: number } | undefined)?.revision;
    return { kind, revision, seen: revision() };
  });
  let seen = (version.get() as { data_version: number }).data_version;
  const revisions = new Map((works.all() as WorkRow[]).map(({ key, revision }) => [key, revision]));
  return () => {
    try {
      const { data_version } = version.get() as { data_version: number };
      if (data_version === seen) return [];
      const news: News[] = [];
      for (const { key, revision, by } of works.all() as WorkRow[]) {
        if (revisions.get(key) !== revision) news.push({ kind: "work", key, revision, by });
        revisions.set(key, revision);
      }
      for (const each of documents) {
        const revision = each.revision();
        if (revision !== each.seen) news.push({ kind: each.kind });
        each.seen = revision;
      }
      seen = data_version;
      return [...news, { kind: "shoots", shoot: null }];
    } catch {
      return []; // what hinders reading is told to whoever saves or loads; it is looked again
    }
  };
}
