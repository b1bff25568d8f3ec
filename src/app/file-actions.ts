import type { Bench } from "./bench.ts";
import type { Store } from "./store.ts";

/** A line about a file, shown until the next one: what was refused and why. */
export interface FileNews {
  readonly heading: string;
  readonly problems: readonly { readonly path: string; readonly what: string }[];
}

export interface FileActions {
  openFile(): void;
  openDropped(file: File): Promise<void>;
  savePlan(): void;
  saveSheetSvg(): void;
  saveSheetPdf(): Promise<void>;
}

export function createFileActions(bench: Bench, news: Store<FileNews | null>): FileActions {
  async function openDropped(file: File): Promise<void> {
    const text = await file.text();
    const outcome = await bench.session.open(keyOf(file.name), text);
    news.set(outcome.ok ? null : { heading: `${file.name} is not opened`, problems: outcome.problems });
  }
  return {
    openDropped,
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
    saveSheetSvg() {},
    async saveSheetPdf() {},
  };
}

/** A file's own name without its ending names the work: the same file opened again finds its history. */
function keyOf(fileName: string): string {
  return fileName.replace(/\.json$/i, "");
}

function fileStem(title: string): string {
  const stem = title
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, "-")
    .replace(/^-|-$/g, "");
  return stem === "" ? "plan" : stem;
}

function download(name: string, type: string, data: string | Blob): void {
  const url = URL.createObjectURL(data instanceof Blob ? data : new Blob([data], { type }));
  const link = document.createElement("a");
  link.href = url;
  link.download = name;
  link.click();
  // The browser has taken the data by the next turn of the loop; a minute is ample even for a slow disk.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}
