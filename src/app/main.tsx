import { options, render } from "preact";
import { Courier, createMemoryShelf, createNearStore, createSession } from "../workbench/index.ts";
import { App } from "./app.tsx";
import type { Bench } from "./bench.ts";
import { followTable, layTable } from "./boot.ts";
import { openBrowserShelf } from "./browser-store.ts";
import { createFileActions, type FileNews } from "./file-actions.ts";
import { followHeld } from "./follow-held.ts";
import { connectDesk, connectGear, connectShelf } from "./frames-client.ts";
import { keepInStep, tellHand } from "./in-step.ts";
import { newKey, ownName } from "./keeping-memory.ts";
import { mapsFor } from "./layer-height.ts";
import { connectLibrary } from "./library-client.ts";
import { connectNews, NO_NEWS } from "./news-client.ts";
import { openView } from "./preferences.ts";
import { ResultsFollower } from "./results.ts";
import { scheduler } from "./scheduler.ts";
import { connectServer, findServer } from "./server.ts";
import { connectSharing } from "./sharing-client.ts";
import { shootDeskOf } from "./shoot-desk.ts";
import { noteReads } from "./shoots-note-read.ts";
import { tellWhatIsShown } from "./shown-events.ts";
import { shownPlan } from "./shown-plan.ts";
import { Store } from "./store.ts";
import { keepPage } from "./sw-register.ts";
import { openWindows } from "./windows.ts";
import { WorkerComputer, type WorkerLike } from "./worker-computer.ts";

const now = () => new Date();
/** Each by the name of what it is for: so a browser's own tools list them. */
const spawn = (name: string) => () =>
  new Worker(new URL("./worker.ts", import.meta.url), { type: "module", name }) as WorkerLike;

/** While something is dragged, one drawing a frame, however many moves and answers come meanwhile; else at once. */
let isPressed = false;
let waiting: (() => void) | null = null;
const drawNow = () => {
  const draw = waiting;
  waiting = null;
  draw?.();
};
options.debounceRendering = (draw) => {
  waiting = draw;
  if (isPressed && !document.hidden) requestAnimationFrame(drawNow);
  else queueMicrotask(drawNow);
};
addEventListener("pointerdown", () => (isPressed = true), true);
for (const end of ["pointerup", "pointercancel"]) {
  addEventListener(end, () => (isPressed = false), true);
  // what waited for its frame is drawn when the hand lets go
  addEventListener(end, () => queueMicrotask(drawNow));
}

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

/** Two, where there is more than one processor: a search halves its time, and more would take it from the drawings. */
function makeFinders(share: boolean): Bench["finders"] {
  const finders: WorkerComputer[] = [];
  return () => {
    const many = navigator.hardwareConcurrency > 1 ? 2 : 1;
    while (finders.length < many)
      finders.push(new WorkerComputer(spawn(`finder ${finders.length + 1}`), share));
    return finders;
  };
}

async function start(root: HTMLElement): Promise<void> {
  const share = globalThis.crossOriginIsolated === true;
  const readings = new WorkerComputer(spawn("readings"), share);
  const frames = new WorkerComputer(spawn("frames"), share);
  readings.wake();
  const news = new Store<FileNews | null>(null);
  const [found, shelf] = await Promise.all([findServer(), openBrowserShelf().catch(() => null)]);
  const server = found.reach === "none" ? null : connectServer();
  const windows = openWindows();
  const told = server === null ? NO_NEWS : connectNews(windows);
  const near = createNearStore(shelf ?? createMemoryShelf(), now);
  const courier: Courier = new Courier(
    {
      near,
      far: server?.store ?? null,
      scheduler,
      // windows go by one name where they share what is kept here, else each is a keeper of its own
      self: shelf === null ? crypto.randomUUID() : ownName(),
      meet: (key, theirs, base) => session.meet(key, theirs, base),
      see: (key, kept) => session.see(key, kept),
      tell: (key) => {
        if (shelf !== null) windows.tell({ kind: "kept", key });
      },
    },
    found.reach === "away" ? "away" : "here",
  );
  const session = createSession({
    computer: readings,
    store: courier,
    scheduler,
    newKey: () => newKey(now()),
  });
  const bench: Bench = {
    session,
    results: new ResultsFollower(readings, frames),
    trials: new WorkerComputer(spawn("trials"), share),
    finders: makeFinders(share),
    desk: server === null ? null : connectDesk(),
    gear: server === null ? null : connectGear(),
    shelf: server === null ? null : connectShelf(),
    sharing: server === null ? null : connectSharing(),
    library: server === null ? null : connectLibrary(),
    news: told,
    view: openView(),
    say: new Store(""),
  };
  const follow = followPlan(bench);
  tellWhatIsShown(bench);
  followHeld(bench);
  const { screen, trouble } = await layTable(session, courier, found.opened);
  bench.view.update({ screen });
  if (shelf === null && server === null) {
    const what = "this browser keeps nothing; save the plan as a file before closing";
    news.set({ heading: "Nothing will be kept", problems: [{ path: "storage", what }] });
  }
  if (trouble !== null) news.set(trouble);
  followTable(session, courier, found.opened);
  noteReads(bench);
  const files = createFileActions(bench, news, courier, server);
  follow();
  render(<App bench={bench} files={files} news={news} now={now} />, root);
  keepUp(courier, () => void session.flush());
  keepInStep({ session, courier, windows, news: told });
  if (server !== null) tellHand(session, told);
  followDesk(bench);
  keepPage();
}

/** What still waits is handed over when the page goes away, and the server is looked for when somebody is back. */
function keepUp(courier: Courier, flush: () => void): void {
  addEventListener("pagehide", flush);
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "hidden") flush();
    else void courier.wake();
  });
  addEventListener("online", () => void courier.wake());
  addEventListener("focus", () => void courier.wake());
  void courier.wake();
}

/** While somebody looks: a browser holds few questions open at a time, and pages in the back ask none. */
function followDesk(bench: Bench): void {
  const follow = () => shootDeskOf(bench).follow(document.visibilityState === "visible");
  document.addEventListener("visibilitychange", follow);
  follow();
}

const root = document.getElementById("app");
if (root !== null) void start(root);
