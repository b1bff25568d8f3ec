import { render } from "preact";
import { createSession } from "../workbench/index.ts";
import { App } from "./app.tsx";
import type { Bench } from "./bench.ts";
import { openBrowserStore } from "./browser-store.ts";
import { createFileActions, type FileNews } from "./file-actions.ts";
import { openView } from "./preferences.ts";
import { ResultsFollower } from "./results.ts";
import { Store } from "./store.ts";
import { WorkerComputer, type WorkerLike } from "./worker-computer.ts";

const now = () => new Date();
const spawn = () => new Worker(new URL("./worker.ts", import.meta.url), { type: "module" }) as WorkerLike;
const share = globalThis.crossOriginIsolated === true;

async function start(root: HTMLElement): Promise<void> {
  const readings = new WorkerComputer(spawn, share);
  const frames = new WorkerComputer(spawn, share);
  const store = await openBrowserStore(now);
  const session = createSession({
    computer: readings,
    store,
    scheduler: {
      after(delay_ms, run) {
        const timer = setTimeout(run, delay_ms);
        return () => clearTimeout(timer);
      },
    },
  });
  const bench: Bench = {
    session,
    results: new ResultsFollower(readings, frames),
    view: openView(),
    say: new Store(""),
  };
  const news = new Store<FileNews | null>(null);
  const files = createFileActions(bench, news);
  render(<App bench={bench} files={files} news={news} now={now} />, root);
}

const root = document.getElementById("app");
if (root !== null) void start(root);
