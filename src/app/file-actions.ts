import { placementSheet } from "../sheet/index.ts";
import { WorkError } from "../workbench/index.ts";
import type { Bench } from "./bench.ts";
import type { ExamplePlan, PlanServer, SheetRequest } from "./server.ts";
import type { Store } from "./store.ts";

/** A line about a file, shown until the next one: what was refused and why. */
export interface FileNews {
  readonly heading: string;
  readonly problems: readonly { readonly path: string; readonly what: string }[];
}

export interface FileActions {
  /** plans that come with the program, by name; none where no server hands them out */
  readonly examples: readonly string[];
  openExample(name: string): Promise<void>;
  newPlan(): void;
  openFile(): void;
  openDropped(file: File): Promise<void>;
  savePlan(): void;
  saveSheetSvg(): void;
  saveSheetPdf(): Promise<void>;
}

/** Larger than any plan by far; the plan room says the rest. */
const MOST_BYTES = 64 * 1024 * 1024;

export function createFileActions(
  bench: Bench,
  news: Store<FileNews | null>,
  server: PlanServer | null,
  examples: readonly ExamplePlan[],
): FileActions {
  async function openDropped(file: File): Promise<void> {
    if (file.size > MOST_BYTES) {
      const what = `has ${(file.size / 1048576).toFixed(0)} MB; a plan has a few kB. Is this the right file?`;
      news.set({ heading: `${file.name} is not opened`, problems: [{ path: "plan", what }] });
      return;
    }
    await openText(file.name, await file.text());
  }

  async function openText(name: string, text: string): Promise<void> {
    const outcome = await bench.session.open(keyOf(name), text);
    if (outcome.ok) bench.view.update({ selected: null, person: 0, layerHeight_m: null });
    news.set(outcome.ok ? null : { heading: `${name} is not opened`, problems: outcome.problems });
  }

  /** The sheet's pages, or null after saying why there are none yet. */
  function sheetPages(): string[] | null {
    const { plan } = bench.session.get();
    const { reading, readingOf, readingQuality } = bench.results.store.get();
    if (reading === null || readingOf !== plan || readingQuality !== "fine") {
      const what = "the reading is still being worked out; ask again in a moment";
      news.set({ heading: "The sheet is not made yet", problems: [{ path: "reading", what }] });
      return null;
    }
    return placementSheet(plan, reading, sheetRequest(bench));
  }

  return {
    examples: examples.map(({ name }) => name),
    async openExample(name) {
      const example = examples.find((each) => each.name === name);
      if (example !== undefined) await openText(name, example.text);
    },
    openDropped,
    newPlan() {
      news.set(null);
      bench.view.update({ selected: null, person: 0, layerHeight_m: null });
      void bench.session.createNew();
    },
    openFile() {
      const input = document.createElement("input");
      input.type = "file";
      input.accept = ".json,application/json";
      input.onchange = () => {
        const [file] = input.files ?? [];
        if (file !== undefined) void openDropped(file);
      };
      input.click();
    },
    savePlan() {
      download(`${fileStem(bench.session.get().plan.title)}.json`, "application/json", bench.session.text());
    },
    saveSheetSvg() {
      const pages = sheetPages();
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
  const link = document.createElement("a");
  link.href = url;
  link.download = name;
  link.click();
  // The browser has taken the data by the next turn of the loop; a minute is ample even for a slow disk.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}
