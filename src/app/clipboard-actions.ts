import { type Bench, makeEdit } from "./bench.ts";
import { copyable, copyParts, cutEdit, isParts, namesOf, pasteParts } from "./clipboard-parts.ts";
import type { FileNews } from "./file-actions.ts";
import type { Store } from "./store.ts";

const LAST_COPIED = "tapemark.parts";

/** What is held and can be copied. */
export function heldParts(bench: Bench) {
  const { selected, also } = bench.view.get();
  return copyable(bench.session.get().plan, [selected, ...also]);
}

/** The text of what is held; null where nothing that can be copied is. */
export function copyHeld(bench: Bench): string | null {
  const { plan } = bench.session.get();
  const held = heldParts(bench);
  if (held.length === 0) return null;
  const text = copyParts(plan, held);
  try {
    localStorage.setItem(LAST_COPIED, text);
  } catch {
    // only the paste button of another window misses it
  }
  bench.say.set(`Copied ${namesOf(plan, held)}.`);
  return text;
}

export function cutHeld(bench: Bench): string | null {
  const { plan } = bench.session.get();
  const text = copyHeld(bench);
  if (text === null) return null;
  const held = heldParts(bench);
  if (makeEdit(bench, cutEdit(plan, held)) !== null) return null;
  bench.view.update({ selected: null, also: [] });
  bench.say.set(`Cut ${namesOf(plan, held)}.`);
  return text;
}

/** Puts parts from the clipboard into the plan, takes hold of them, and says what was done to make them fit. */
export function pasteText(bench: Bench, news: Store<FileNews | null>, text: string): void {
  const pasted = pasteParts(bench.session.get().plan, text);
  const outcome = pasted.ok ? bench.session.edit(pasted.edit) : pasted;
  if (!pasted.ok || !outcome.ok) {
    news.set({ heading: "Nothing was pasted", problems: outcome.ok ? [] : outcome.problems });
    return;
  }
  const [selected = null, ...also] = pasted.owners;
  bench.view.update({ selected, also });
  const label = pasted.edit.label.replace(/^paste/, "Pasted");
  bench.say.set([label, ...pasted.notes].join(". "));
  const problems = pasted.notes.map((what) => ({ path: "position", what }));
  news.set(problems.length === 0 ? null : { heading: label, problems });
}

/** Copy, cut and paste by the browser's own events: they need no permission, and keys and menus both come so. What is
 * typed in, or selected as text, stays the browser's. Answers what ends it. */
export function followClipboard(bench: Bench, news: Store<FileNews | null>): () => void {
  const give = (take: (bench: Bench) => string | null) => (event: ClipboardEvent) => {
    if (isTextsOwn(event) || bench.view.get().screen !== "plan") return;
    const text = take(bench);
    if (text === null) return;
    event.clipboardData?.setData("text/plain", text);
    event.preventDefault();
  };
  const onCopy = give(copyHeld);
  const onCut = give(cutHeld);
  const onPaste = (event: ClipboardEvent) => {
    if (isEntry(event.target) || bench.view.get().screen !== "plan") return;
    const text = event.clipboardData?.getData("text/plain") ?? "";
    if (!isParts(text)) return;
    event.preventDefault();
    pasteText(bench, news, text);
  };
  document.addEventListener("copy", onCopy);
  document.addEventListener("cut", onCut);
  document.addEventListener("paste", onPaste);
  return () => {
    document.removeEventListener("copy", onCopy);
    document.removeEventListener("cut", onCut);
    document.removeEventListener("paste", onPaste);
  };
}

/** For the button: the clipboard where it may be read, else what this browser copied last. */
export async function readForPaste(): Promise<string | null> {
  try {
    const text = await navigator.clipboard.readText();
    if (isParts(text)) return text;
  } catch {
    // not allowed: what was copied here is known all the same
  }
  try {
    return localStorage.getItem(LAST_COPIED);
  } catch {
    return null;
  }
}

function isEntry(target: EventTarget | null): boolean {
  return (
    target instanceof HTMLInputElement ||
    target instanceof HTMLTextAreaElement ||
    target instanceof HTMLSelectElement
  );
}

function isTextsOwn(event: ClipboardEvent): boolean {
  return isEntry(event.target) || (getSelection()?.toString() ?? "") !== "";
}
