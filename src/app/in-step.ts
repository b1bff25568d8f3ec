/** Keeps this window in step with others: what they keep comes onto the table, and the server knows which table was used
 * last. */
import type { Courier, Session } from "../workbench/index.ts";
import type { ServerNews } from "./news-client.ts";
import { ask } from "./server.ts";
import type { Windows } from "./windows.ts";

export interface StepParts {
  readonly session: Session;
  readonly courier: Courier;
  readonly windows: Windows;
  readonly news: ServerNews;
}

export function keepInStep({ session, courier, windows, news }: StepParts): void {
  windows.subscribe((word) => {
    if (word.kind === "kept") void courier.told(word.key);
  });
  news.subscribe((each) => {
    if (each.kind === "work") void courier.heard(each.key, each.revision, each.by);
  });
  const lookAgain = () => {
    const { key } = session.get();
    void courier.told(key);
    void courier.heard(key);
  };
  news.onHello(() => {
    void courier.wake();
    lookAgain();
  });
  // a window in the back may have slept
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") lookAgain();
  });
}

/** Tells the server which work is in hand: frames that come in belong to it. Looking at a window is enough. */
export function tellHand(session: Session, news: ServerNews): void {
  let told: string | null | undefined;
  const tell = () => {
    const key = session.get().key || null;
    if (key === told || document.visibilityState !== "visible" || !document.hasFocus()) return;
    told = key;
    const request = { method: "PUT", body: JSON.stringify({ key }) };
    const headers = { "content-type": "application/json" };
    ask("./api/hand", { ...request, headers }).catch(() => {
      told = undefined;
    });
  };
  news.subscribe((each) => {
    if (each.kind === "hand") told = each.key;
  });
  news.onHello(() => {
    told = undefined;
    tell();
  });
  session.subscribe(tell);
  for (const use of ["focus", "pointerdown", "keydown"]) addEventListener(use, tell, true);
  tell();
}
