import type { ComponentChildren } from "preact";
import { useKept } from "./kept.ts";

interface FoldProps {
  /** the word on it, and what it remembers being open by */
  readonly word: string;
  /** whose it is, for the ear */
  readonly of: string;
  /** what is inside, in a few words: seldom needs opening to be known */
  readonly sums: string;
  readonly children: ComponentChildren;
}

/** Numbers that are not used every minute, behind their summary. Stays as it was left, for every light and next time. */
export function Fold({ word, of, sums, children }: FoldProps) {
  const [open, setOpen] = useKept(`fold.${word}`, "no");
  return (
    <details
      class="fold"
      open={open === "yes"}
      onToggle={(event) => {
        const now = event.currentTarget.open ? "yes" : "no";
        if (now !== open) setOpen(now);
      }}
    >
      <summary>
        <span class="quiet">{word}</span>
        <span class="visually-hidden"> of {of}:</span> <span class="sums">{sums}</span>
      </summary>
      <div class="fold-body">{children}</div>
    </details>
  );
}
