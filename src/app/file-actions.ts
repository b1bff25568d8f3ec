import type { Plan } from "../plan/index.ts";
import {
  type Courier,
  type CourierState,
  type FoundWork,
  type Outcome,
  WorkError,
  type WorkGlance,
} from "../workbench/index.ts";
import type { Bench, View } from "./bench.ts";
import { EXAMPLES } from "./examples.ts";
import type { Readable } from "./hooks.ts";
import type { PlanServer, SheetRequest } from "./server.ts";
import { shootDeskOf } from "./shoot-desk.ts";
import { isPhotograph } from "./shoot-files.ts";
import type { Store } from "./store.ts";

/** A line about a file, shown until the next one: what was refused and why, and where to go on. */
export interface FileNews {
  readonly heading: string;
  readonly problems: readonly { readonly path: string; readonly what: string }[];
  readonly ways?: readonly { readonly text: string; readonly act: () => void }[];
}

export interface FileActions {
  /** plans that come with the program, by name */
  readonly examples: readonly string[];
  /** how what is kept here stands to the server */
  readonly keeping: Readable<CourierState>;
  /** every work that is kept, the newest first */
  listKept(): Promise<FoundWork[]>;
  /** what a list shows of a kept work; null where there is none */
  glance(key: string): Promise<WorkGlance | null>;
  openExample(name: string): Promise<void>;
  openKept(work: FoundWork): Promise<void>;
  newPlan(plan?: Plan): Promise<void>;
  openFile(): void;
  openDropped(file: File): Promise<void>;
  /** photographs go to the desk, anything else is opened as a plan */
  takeDropped(files: readonly File[]): Promise<void>;
  savePlan(): void;
  saveSheetSvg(): Promise<void>;
  saveSheetPdf(): Promise<void>;
}

/** Larger than any plan by far; the plan room says the rest. */
const MOST_BYTES = 64 * 1024 * 1024;

/** A view of another plan: nothing of the one before is held, looked through or measured against. */
const UNTOUCHED: Partial<View> = {
  screen: "plan",
  selected: null,
  also: [],
  person: 0,
  layerHeight_m: null,
  layerAcross_m: null,
  reference: null,
  alone: null,
  guess: null,
};

export function createFileActions(
  bench: Bench,
  news: Store<FileNews | null>,
  courier: Courier,
  server: PlanServer | null,
): FileActions {
  async function openDropped(file: File): Promise<void> {
    if (file.size > MOST_BYTES) {
      const what = `has ${(file.size / 1048576).toFixed(0)} MB; a plan has a few kB. Is this the right file?`;
      refuse(`${file.name} is not opened`, [{ path: "plan", what }]);
      return;
    }
    await openText(file.name, await file.text());
  }

  async function openText(name: string, text: string): Promise<void> {
    took(await bench.session.open(keyOf(name), text), `${name} is not opened`);
  }

  function took(outcome: Outcome, heading: string): void {
    if (outcome.ok) {
      bench.view.update(UNTOUCHED);
      news.set(null);
    } else refuse(heading, outcome.problems);
  }

  function refuse(heading: string, problems: FileNews["problems"], more: FileNews["ways"] = []): void {
    const ways = [{ text: "open another file", act: openFile }, ...more];
    if (bench.view.get().screen !== "start") ways.push({ text: "all plans", act: allPlans });
    news.set({ heading, problems, ways });
  }

  function allPlans(): void {
    news.set(null);
    bench.view.update({ screen: "start" });
  }

  function openFile(): void {
    const input = document.createElement("input");
    input.type = "file";
    input.accept = ".json,application/json";
    input.onchange = () => {
      const [file] = input.files ?? [];
      if (file !== undefined) void openDropped(file);
    };
    input.click();
  }

  async function openKept(work: FoundWork): Promise<void> {
    if (work.key === bench.session.get().key) return took({ ok: true }, "");
    const outcome = await bench.session.resume(work.key);
    if (outcome.ok) return took(outcome, "");
    const kept = (await courier.glance(work.key).catch(() => null))?.plan ?? null;
    const save = () =>
      download(`${fileStem(work.title)}-damaged.json`, "application/json", JSON.stringify(kept));
    const ways = kept === null ? [] : [{ text: "save what is kept as a file", act: save }];
    refuse(`“${work.title}” is not opened`, outcome.problems, ways);
  }

  /** The sheet's pages as the shell makes them, or null after saying why there are none. Its code comes when it is first
   * asked for. */
  async function sheetPages(): Promise<string[] | null> {
    const { plan } = bench.session.get();
    try {
      const { makeSheet, sheetDate } = await import("../workbench/sheet.ts");
      const pages = await makeSheet(bench.trials, plan, {
        ...sheetRequest(bench),
        date: sheetDate(new Date()),
      });
      news.set(null);
      return pages;
    } catch (error) {
      const what = `it could not be worked out: ${error instanceof Error ? error.message : error}; ask again`;
      news.set({ heading: "The sheet is not made", problems: [{ path: "sheet", what }] });
      return null;
    }
  }

  return {
    examples: EXAMPLES.map(({ name }) => name),
    keeping: courier,
    listKept: () => courier.list(),
    glance: (key) => courier.glance(key),
    async openExample(name) {
      const example = EXAMPLES.find((each) => each.name === name);
      if (example !== undefined) await openText(name, example.text);
    },
    openKept,
    openDropped,
    async takeDropped(dropped) {
      const photographs = dropped.filter(isPhotograph);
      const [first] = dropped;
      if (photographs.length === 0) return first === undefined ? undefined : openDropped(first);
      news.set(null);
      bench.view.update({ screen: "shoot", shoot: "frames" });
      await shootDeskOf(bench).hand(photographs);
    },
    async newPlan(plan) {
      await bench.session.createNew(plan);
      took({ ok: true }, "");
    },
    openFile,
    savePlan() {
      download(`${fileStem(bench.session.get().plan.title)}.json`, "application/json", bench.session.text());
    },
    async saveSheetSvg() {
      const pages = await sheetPages();
      if (pages === null) return;
      const stem = fileStem(bench.session.get().plan.title);
      pages.forEach((page, index) => {
        const number = pages.length === 1 ? "" : `-${index + 1}`;
        download(`${stem}-sheet${number}.svg`, "image/svg+xml", page);
      });
    },
    async saveSheetPdf() {
      if (server === null) {
        const what = "needs the server that `tapemark open` starts; the SVG is made here without it";
        news.set({ heading: "No PDF was made", problems: [{ path: "sheet", what }] });
        return;
      }
      try {
        const pdf = await server.sheetPdf(bench.session.text(), sheetRequest(bench));
        download(`${fileStem(bench.session.get().plan.title)}-sheet.pdf`, "application/pdf", pdf);
        news.set(null);
      } catch (error) {
        if (!(error instanceof WorkError)) throw error;
        news.set({ heading: "No PDF was made", problems: [{ path: "sheet", what: error.message }] });
      }
    },
  };
}

/** Feet are read where letter paper is used. */
function sheetRequest(bench: Bench): SheetRequest {
  const { units } = bench.view.get();
  return { paper: units === "feet" ? "letter" : "a4", units };
}

/** A file's own name without its ending names the work, in the letters that a store takes: the same file opened
 * again finds its history. */
export function keyOf(fileName: string): string {
  const key = fileName
    .replace(/\.json$/i, "")
    .toLowerCase()
    .normalize("NFKD")
    .replace(/[^a-z0-9]+/g, "-")
    .slice(0, 64)
    .replace(/^-+|-+$/g, "");
  return key === "" ? "plan" : key;
}

export function fileStem(title: string): string {
  const stem = title
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, "-")
    .replace(/^-|-$/g, "");
  return stem === "" ? "plan" : stem;
}

export function download(name: string, type: string, data: string | Blob): void {
  const url = URL.createObjectURL(data instanceof Blob ? data : new Blob([data], { type }));
  fetchAs(name, url);
  // The browser has taken the data by the next turn of the loop; a minute is ample even for a slow disk.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}

/** The browser fetches what lies there as a file of that name. */
export function fetchAs(name: string, address: string): void {
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
}
