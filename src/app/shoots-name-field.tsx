import { useId, useLayoutEffect, useRef, useState } from "preact/hooks";

interface NameProps {
  readonly label: string;
  readonly name: string;
  readonly hint?: string;
  readonly done: string;
  readonly take: (name: string) => void;
  readonly leave: () => void;
}

/** A name that is asked for: Enter takes it, Escape leaves it. */
export function NameField({ label, name, hint, done, take, leave }: NameProps) {
  const id = useId();
  const input = useRef<HTMLInputElement>(null);
  const [text, setText] = useState(name);
  // at once: whoever types on would type into nothing
  useLayoutEffect(() => input.current?.focus(), []);
  return (
    <form
      class="name-field"
      onSubmit={(event) => {
        event.preventDefault();
        take(text.trim());
      }}
      onKeyDown={(event) => {
        if (event.key !== "Escape") return;
        event.stopPropagation();
        leave();
      }}
    >
      <label for={id} class="visually-hidden">
        {label}
      </label>
      <input
        ref={input}
        id={id}
        maxLength={120}
        placeholder={hint}
        value={text}
        onInput={(event) => setText(event.currentTarget.value)}
      />
      <button type="submit">{done}</button>
      <button type="button" class="quiet" onClick={leave}>
        leave it
      </button>
    </form>
  );
}

interface KeepProps {
  readonly of: string;
  /** the number that it gets */
  readonly next: number;
  readonly keep: (name: string) => Promise<void>;
  readonly leave: () => void;
}

export function KeepVersion({ of, next, keep, leave }: KeepProps) {
  return (
    <NameField
      label={`name of version ${next} of ${of}`}
      name=""
      hint="a name"
      done="keep"
      take={(name) => void keep(name)}
      leave={leave}
    />
  );
}
