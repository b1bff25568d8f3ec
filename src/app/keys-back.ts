import { useEffect } from "preact/hooks";
import type { Bench } from "./bench.ts";

interface Word {
  readonly text: string | null;
  /** which of those that read so */
  readonly at: number;
}

/** Back on the plan, the word that led away from it has the keys again: who works by keys goes on from there. */
export function useKeysBackOnPlan(bench: Bench): void {
  useEffect(() => {
    let { screen: from } = bench.view.get();
    let word: Word | null = null;
    return bench.view.subscribe(() => {
      const { screen } = bench.view.get();
      if (screen === from) return;
      if (from === "plan") word = wordWithKeys();
      else if (screen === "plan" && word !== null) setTimeout(giveKeys, 0, word);
      from = screen;
    });
  }, [bench]);
}

function wordsReading(text: string | null): HTMLButtonElement[] {
  const buttons = [...document.querySelectorAll<HTMLButtonElement>(".edge button, .numbers button")];
  return buttons.filter(({ textContent }) => textContent === text);
}

function wordWithKeys(): Word | null {
  const left = document.activeElement;
  if (!(left instanceof HTMLButtonElement)) return null;
  return { text: left.textContent, at: wordsReading(left.textContent).indexOf(left) };
}

/** Once the plan is drawn; to nobody, where something has them already. */
function giveKeys({ text, at }: Word): void {
  if (document.activeElement === document.body) wordsReading(text)[at]?.focus();
}
