import { useEffect, useId, useRef, useState } from "preact/hooks";
import { type Entry, FREE } from "./find-spans.ts";

interface EntryFieldProps<T> {
  readonly label: string;
  /** spoken after the label where the label alone is not enough */
  readonly of?: string;
  readonly text: string;
  readonly parse: (text: string) => Entry<T>;
  /** returns why the value is refused, or null when it was taken */
  readonly commit: (value: T) => string | null;
  /** in a few quiet words what the entry comes to */
  readonly note?: string;
}

/** Something that is typed and is not one number: a range, a time on the clock, a name. Enter or leaving the field takes
 * it; Escape gives the old one back; what cannot be taken says why beneath, and the plan keeps the old. */
export function EntryField<T>({ label, of, text, parse, commit, note }: EntryFieldProps<T>) {
  const id = useId();
  const input = useRef<HTMLInputElement>(null);
  const [draft, setDraft] = useState<string | null>(null);
  const [why, setWhy] = useState<string | null>(null);

  function forget() {
    setDraft(null);
    setWhy(null);
  }
  useEffect(() => {
    if (document.activeElement !== input.current) forget();
  }, [text]);

  function take(typed: string) {
    if (draft === null || typed.trim() === text) return forget();
    const entry = parse(typed);
    const refusal = entry.ok ? commit(entry.value) : entry.why;
    if (refusal === null) forget();
    else setWhy(refusal);
  }

  const isFree = draft === null && text === FREE;
  return (
    <div class="number">
      <label for={id}>
        {label}
        {of !== undefined && <span class="visually-hidden">, {of}</span>}
      </label>
      <input
        ref={input}
        id={id}
        class={isFree ? "is-free" : undefined}
        type="text"
        autoComplete="off"
        spellcheck={false}
        value={draft ?? text}
        aria-invalid={why !== null}
        aria-describedby={why !== null ? `${id}-why` : note === undefined ? undefined : `${id}-note`}
        onInput={(event) => setDraft(event.currentTarget.value)}
        onFocus={(event) => isFree && event.currentTarget.select()}
        onBlur={(event) => take(event.currentTarget.value)}
        onKeyDown={(event) => {
          if (event.key === "Enter") take(event.currentTarget.value);
          else if (event.key === "Escape") forget();
        }}
      />
      {why !== null && (
        <p class="why alert" id={`${id}-why`} role="alert">
          {why} Kept {text}.
        </p>
      )}
      {why === null && note !== undefined && (
        <p class="why quiet" id={`${id}-note`}>
          {note}
        </p>
      )}
    </div>
  );
}
