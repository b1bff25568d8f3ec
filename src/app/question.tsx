import { useLayoutEffect, useRef } from "preact/hooks";
import type { Meaning } from "./entries.ts";

interface QuestionProps {
  readonly id: string;
  readonly text: string;
  readonly meanings: readonly Meaning[];
  /** what stays when nothing is chosen; left out where one of the meanings is that */
  readonly kept?: string;
  readonly choose: (value: number) => void;
  readonly leave: () => void;
}

/** What an entry or a press can mean, one button each, under where it was made. The first takes the focus; Escape keeps
 * the old value. */
export function Question({ id, text, meanings, kept, choose, leave }: QuestionProps) {
  const group = useRef<HTMLFieldSetElement>(null);
  // at once: whoever types on would type into the field
  useLayoutEffect(() => group.current?.querySelector("button")?.focus(), []);
  return (
    <fieldset
      ref={group}
      class="why question"
      aria-describedby={id}
      onKeyDown={(event) => {
        if (event.key !== "Escape") return;
        event.stopPropagation();
        leave();
      }}
    >
      <legend id={id}>{text}</legend>
      {meanings.map((meaning) => (
        <button key={meaning.text} type="button" onClick={() => choose(meaning.value)}>
          {meaning.text}
        </button>
      ))}
      {kept !== undefined && (
        <button type="button" class="quiet" onClick={leave}>
          neither, keep {kept}
        </button>
      )}
    </fieldset>
  );
}
