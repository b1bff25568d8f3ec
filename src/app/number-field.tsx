import { useEffect, useId, useRef, useState } from "preact/hooks";
import type { Meaning, Parsed } from "./entries.ts";
import { Question } from "./question.tsx";

interface NumberFieldProps {
  readonly label: string;
  /** spoken after the label where the label alone is not enough: "key, across" */
  readonly of?: string;
  readonly text: string;
  readonly parse: (text: string) => Parsed;
  /** returns why the value is refused, or null when it was taken; a promise where that has to be worked out */
  readonly commit: (value: number) => string | null | Promise<string | null>;
  readonly step?: (direction: 1 | -1, large: boolean) => string | null;
  readonly width?: string;
}

/** What stands beneath the field: why an entry was refused, or what it could mean. */
type Answer =
  | { readonly kind: "refused"; readonly why: string }
  | { readonly kind: "asked"; readonly why: string; readonly meanings: readonly Meaning[] };

/** A number that is typed. Enter or leaving the field takes it; Escape gives the old one back; an entry that
 * cannot be taken says why beneath, one that can be read two ways asks, and the plan keeps the old value meanwhile.
 * Up and down step where a step is given. */
export function NumberField(props: NumberFieldProps) {
  const id = useId();
  const input = useRef<HTMLInputElement>(null);
  const [draft, setDraft] = useState<string | null>(null);
  const [answer, setAnswer] = useState<Answer | null>(null);
  const [working, setWorking] = useState(false);

  function forget() {
    setDraft(null);
    setAnswer(null);
  }
  useEffect(() => {
    // a reading that is refined meanwhile takes nothing out of the hand
    if (document.activeElement !== input.current) forget();
  }, [props.text]);

  function settle(refusal: string | null) {
    if (refusal === null) forget();
    else setAnswer({ kind: "refused", why: refusal });
  }

  function commit(value: number) {
    const outcome = props.commit(value);
    if (!(outcome instanceof Promise)) return settle(outcome);
    setAnswer(null);
    setWorking(true);
    void outcome.then((refusal) => {
      setWorking(false);
      settle(refusal);
    });
  }

  function take(text: string) {
    // leaving the field for the question beneath it is no answer
    if (answer?.kind === "asked" || working) return;
    if (draft === null || text.trim() === props.text) return forget();
    const parsed = props.parse(text);
    if (parsed.ok) commit(parsed.value);
    else if (parsed.meanings === undefined) setAnswer({ kind: "refused", why: parsed.why });
    else setAnswer({ kind: "asked", why: parsed.why, meanings: parsed.meanings });
  }

  function onKeyDown(event: KeyboardEvent & { readonly currentTarget: HTMLInputElement }) {
    if (event.key === "Enter") {
      // a question takes the focus at once, and this key must not answer it
      event.preventDefault();
      take(event.currentTarget.value);
    } else if (event.key === "Escape") forget();
    else if ((event.key === "ArrowUp" || event.key === "ArrowDown") && props.step !== undefined) {
      event.preventDefault();
      setDraft(null);
      settle(props.step(event.key === "ArrowUp" ? 1 : -1, event.shiftKey));
    }
  }

  return (
    <div class="number">
      <label for={id}>
        {props.label}
        {props.of !== undefined && <span class="visually-hidden">, {props.of}</span>}
      </label>
      <input
        ref={input}
        id={id}
        type="text"
        inputMode="text"
        autoComplete="off"
        spellcheck={false}
        value={draft ?? props.text}
        aria-busy={working}
        aria-invalid={answer?.kind === "refused"}
        aria-describedby={answer === null ? undefined : `${id}-why`}
        onInput={(event) => {
          setDraft(event.currentTarget.value);
          if (answer?.kind === "asked") setAnswer(null);
        }}
        onBlur={(event) => take(event.currentTarget.value)}
        onKeyDown={onKeyDown}
      />
      {answer?.kind === "refused" && (
        <p class="why alert" id={`${id}-why`} role="alert">
          {answer.why}
          {props.text !== "" && ` Kept ${props.text}.`}
        </p>
      )}
      {answer?.kind === "asked" && (
        <Question
          id={`${id}-why`}
          text={answer.why}
          meanings={answer.meanings}
          kept={props.text}
          choose={(value) => {
            input.current?.focus();
            commit(value);
          }}
          leave={() => {
            input.current?.focus();
            forget();
          }}
        />
      )}
    </div>
  );
}
