import type { Courier, Outcome, Session } from "../workbench/index.ts";
import type { Screen } from "./bench.ts";
import type { FileNews } from "./file-actions.ts";
import { recallLast, recallTab, rememberTable } from "./keeping-memory.ts";
import type { OpenedPlan } from "./server.ts";

export interface Laid {
  readonly screen: Screen;
  readonly trouble: FileNews | null;
}

/** Puts on the table what was asked for: what this tab had there before a reload, else the plan of the command line,
 * else the work that was on a table last. Where there is none, or it cannot be opened, the start page offers the rest. */
export async function layTable(session: Session, courier: Courier, opened: OpenedPlan | null): Promise<Laid> {
  const tab = recallTab();
  const goesOn =
    tab !== null && tab.key !== "" && tab.named === (opened?.key ?? "") && tab.key !== opened?.key;
  if (goesOn && (await session.resume(tab.key)).ok) return { screen: "plan", trouble: null };
  if (opened !== null) {
    return laid(await session.open(opened.key, opened.text), "The plan is not opened");
  }
  const last = recallLast();
  if (last && (await session.resume(last)).ok) return { screen: "plan", trouble: null };
  const [newest] = await courier.list();
  if (newest === undefined) return { screen: "start", trouble: null };
  return laid(await session.resume(newest.key), `“${newest.title}” is not opened`);
}

function laid(outcome: Outcome, heading: string): Laid {
  if (outcome.ok) return { screen: "plan", trouble: null };
  return { screen: "start", trouble: { heading, problems: outcome.problems } };
}

/** From now on a reload finds the work that is on the table, and what clashed there is asked about. */
export function followTable(session: Session, courier: Courier, opened: OpenedPlan | null): void {
  let key = "";
  const follow = () => {
    if (session.get().key === key) return;
    key = session.get().key;
    if (key === "") return;
    rememberTable({ named: opened?.key ?? "", key });
    courier.look(key);
  };
  follow();
  session.subscribe(follow);
}
