import type { PlanStore, Session } from "../workbench/index.ts";
import { openBrowserStore } from "./browser-store.ts";
import type { FileNews } from "./file-actions.ts";
import type { PlanServer } from "./server.ts";

/** Where plans are kept: with the server, else in this browser. */
export function openStore(server: PlanServer | null, now: () => Date): Promise<PlanStore> {
  return server === null ? openBrowserStore(now) : Promise.resolve(server.store);
}

/** Puts on the table what was asked for: the plan of the command line, else the work that was kept last, else a new
 * one. What cannot be opened is told, and the table stays usable. */
export async function layTable(
  session: Session,
  server: PlanServer | null,
  store: PlanStore,
): Promise<FileNews | null> {
  const opened = (await server?.opened()) ?? null;
  if (opened !== null) {
    const outcome = await session.open(opened.key, opened.text);
    return outcome.ok ? null : { heading: "The plan is not opened", problems: outcome.problems };
  }
  const [last] = await store.list();
  if (last === undefined) return null;
  const outcome = await session.resume(last.key);
  return outcome.ok ? null : { heading: `“${last.title}” is not opened`, problems: outcome.problems };
}
