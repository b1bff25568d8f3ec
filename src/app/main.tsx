import { options, render } from "preact";
import { createMemoryStore, createSession, type PlanStore } from "../workbench/index.ts";
import { App } from "./app.tsx";
import type { Bench } from "./bench.ts";
import { layTable, openStore } from "./boot.ts";
import { createFileActions, type FileNews } from "./file-actions.ts";
import { mapsFor } from "./layer-height.ts";
import { openView } from "./preferences.ts";
import { ResultsFollower } from "./results.ts";
import { findServer } from "./server.ts";
import { tellWhatIsShown } from "./shown-events.ts";
import { shownPlan } from "./shown-plan.ts";
import { Store } from "./store.ts";
import { WorkerComputer, type WorkerLike } from "./worker-computer.ts";

const now = () => new Date();
const spawn = () => new Worker(new URL("./worker.ts", import.meta.url), { type: "module" }) as WorkerLike;
const scheduler = {
  after(delay_ms: number, run: () => void) {
    const timer = setTimeout(run, delay_ms);
    return () => clearTimeout(timer);
  },
};

/** One drawing a frame, however many things changed meanwhile; a page that is hidden has no frames. */
options.debounceRendering = (draw) => {
  if (document.hidden) setTimeout(draw, 0);
  else requestAnimationFrame(draw);
};

/** The work begins with the change itself, not once it is drawn. */
function followPlan({ session, view, results }: Bench): () => void {
  const follow = () => {
    const shown = shownPlan(session.get().plan, view.get().alone);
    results.ask(shown, mapsFor(shown, view.get()));
  };
  session.subscribe(follow);
  view.subscribe(follow);
  return follow;
}

async function start(root: HTMLElement): Promise<void> {
  const share = globalThis.crossOriginIsolated === true;
  const readings = new WorkerComputer(spawn, share);
  const frames = new WorkerComputer(spawn, share);
  readings.wake();
  const news = new Store<FileNews | null>(null);
  const server = await findServer();
  const store: PlanStore = await openStore(server, now).catch(() => {
    const what = "this browser keeps nothing; save the plan as a file before closing";
    news.set({ heading: "Nothing will be kept", problems: [{ path: "storage", what }] });
    return createMemoryStore();
  });
  const session = createSession({ computer: readings, store, scheduler });
  const bench: Bench = {
    session,
    results: new ResultsFollower(readings, frames),
    trials: new WorkerComputer(spawn, share),
    view: openView(),
    say: new Store(""),
  };
  const follow = followPlan(bench);
  tellWhatIsShown(bench);
  const [trouble, examples] = await Promise.all([
    layTable(session, server, store),
    server?.examples().catch(() => []) ?? [],
  ]);
  const files = createFileActions(bench, news, server, examples);
  if (trouble !== null) news.set(trouble);
  follow();
  // What still waits is handed over when the page goes away.
  addEventListener("pagehide", () => void session.flush());
  render(<App bench={bench} files={files} news={news} now={now} />, root);
}

const root = document.getElementById("app");
if (root !== null) void start(root);
