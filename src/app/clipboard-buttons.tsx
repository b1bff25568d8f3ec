import type { Plan } from "../plan/index.ts";
import type { Bench } from "./bench.ts";
import { pasteText, readForPaste } from "./clipboard-actions.ts";
import { copyable, namesOf } from "./clipboard-parts.ts";
import type { FileNews } from "./file-actions.ts";
import { useStore } from "./hooks.ts";
import type { Store } from "./store.ts";

interface PartsButtonsProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly news: Store<FileNews | null>;
}

/** Copy, cut and paste for who has no keys at hand; Ctrl or Cmd with C, X, V do the same. */
export function PartsButtons({ bench, plan, news }: PartsButtonsProps) {
  const view = useStore(bench.view);
  const held = copyable(plan, [view.selected, ...view.also]);
  const names = held.length === 0 ? null : namesOf(plan, held);
  // the browser's own command: it goes the way of the keys, and needs no permission
  const command = (name: "copy" | "cut") => () => {
    getSelection()?.removeAllRanges();
    document.execCommand(name);
  };
  return (
    <div class="row">
      <button type="button" disabled={names === null} title={names ?? undefined} onClick={command("copy")}>
        copy
        {names !== null && <span class="visually-hidden"> {names}</span>}
      </button>
      <button type="button" disabled={names === null} title={names ?? undefined} onClick={command("cut")}>
        cut
        {names !== null && <span class="visually-hidden"> {names}</span>}
      </button>
      <button type="button" onClick={() => void paste(bench, news)}>
        paste
      </button>
    </div>
  );
}

async function paste(bench: Bench, news: Store<FileNews | null>): Promise<void> {
  const text = await readForPaste();
  if (text !== null) return pasteText(bench, news, text);
  const what = "holds no parts of a plan: take hold of a light and copy it, here or in another window";
  news.set({ heading: "Nothing was pasted", problems: [{ path: "clipboard", what }] });
}
