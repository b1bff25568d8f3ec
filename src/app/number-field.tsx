import { useEffect, useId, useState } from "preact/hooks";
import type { Parsed } from "./entries.ts";

interface NumberFieldProps {
  readonly label: string;
  /** spoken after the label where the label alone is not enough: "key, across" */
  readonly of?: string;
  readonly text: string;
  readonly parse: (text: string) => Parsed;
  /** returns why the value is refused, or null when it was taken */
  readonly commit: (value: number) => string | null;
  readonly step?: (direction: 1 | -1, large: boolean) => string | null;
  readonly width?: string;
}

/** A number that is typed. Enter or leaving the field takes it; Escape gives the old one back; an entry that
 * cannot be taken says why beneath, and the plan keeps the old value. Up and down step where a step is given. */
export function NumberField(props: NumberFieldProps) {
  const id = useId();
  const [draft, setDraft] = useState<string | null>(null);
  const [why, setWhy] = useState<string | null>(null);

  useEffect(() => {
    setDraft(null);
    setWhy(null);
  }, [props.text]);

  function take(text: string) {
    if (draft === null || text.trim() === props.text) {
      setDraft(null);
      setWhy(null);
      return;
    }
    const parsed = props.parse(text);
    const refusal = parsed.ok ? props.commit(parsed.value) : parsed.why;
    setWhy(refusal);
    if (refusal === null) setDraft(null);
  }

  function onKeyDown(event: KeyboardEvent) {
    const input = event.currentTarget as HTMLInputElement;
    if (event.key === "Enter") take(input.value);
    else if (event.key === "Escape") {
      setDraft(null);
      setWhy(null);
    } else if ((event.key === "ArrowUp" || event.key === "ArrowDown") && props.step !== undefined) {
      event.preventDefault();
      setDraft(null);
      setWhy(props.step(event.key === "ArrowUp" ? 1 : -1, event.shiftKey));
    }
  }

  return (
    <div class="number">
      <label for={id}>
        {props.label}
        {props.of !== undefined && <span class="visually-hidden">, {props.of}</span>}
      </label>
      <input
        id={id}
        type="text"
        inputMode="text"
        autoComplete="off"
        spellcheck={false}
        value={draft ?? props.text}
        aria-invalid={why !== null}
        aria-describedby={why === null ? undefined : `${id}-why`}
        onInput={(event) => setDraft(event.currentTarget.value)}
        onBlur={(event) => take(event.currentTarget.value)}
        onKeyDown={onKeyDown}
      />
      {why !== null && (
        <p class="why alert" id={`${id}-why`} role="alert">
          {why}
          {props.text !== "" && ` Kept ${props.text}.`}
        </p>
      )}
    </div>
  );
}
