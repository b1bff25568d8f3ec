import { useEffect, useId, useLayoutEffect, useRef, useState } from "preact/hooks";
import type { ShootRow } from "../shoots/index.ts";
import type { ShootLibrary } from "../workbench/index.ts";
import { dayText, titleOf } from "./shoots-words.ts";
import { troubleOf } from "./trouble.ts";

interface MoveProps {
  readonly library: Pick<ShootLibrary, "find">;
  readonly title: string;
  /** the shoot that it lies in, which is no choice */
  readonly from: string;
  readonly move: (to: string) => void;
  readonly leave: () => void;
}

/** The newest that fit: more words find any other. */
const OFFERED = 8;
const STILL_MS = 150;

/** Which shoot a plan is to lie in. */
export function MovePlan({ library, title, from, move, leave }: MoveProps) {
  const id = useId();
  const input = useRef<HTMLInputElement>(null);
  const [text, setText] = useState("");
  const [rows, setRows] = useState<readonly ShootRow[] | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  // at once: whoever types on would type into nothing
  useLayoutEffect(() => input.current?.focus(), []);
  useEffect(() => {
    let isHere = true;
    const look = () =>
      library.find({ text: text.trim(), offset: 0, limit: OFFERED + 1 }).then(
        (found) => isHere && setRows(found.rows.filter((row) => row.id !== from).slice(0, OFFERED)),
        (error: unknown) => isHere && setTrouble(troubleOf(error)),
      );
    const timer = setTimeout(look, text === "" ? 0 : STILL_MS);
    return () => {
      isHere = false;
      clearTimeout(timer);
    };
  }, [library, text, from]);
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: Escape leaves whatever in it has the keys
    <div
      class="move-plan"
      onKeyDown={(event) => {
        if (event.key === "Escape") leave();
      }}
    >
      <label for={id}>
        move to<span class="visually-hidden"> which shoot: {title}</span>
      </label>{" "}
      <input
        ref={input}
        id={id}
        type="search"
        placeholder="title, place, client"
        value={text}
        onInput={(event) => setText(event.currentTarget.value)}
      />
      {trouble !== null && (
        <p class="alert" role="alert">
          {trouble}
        </p>
      )}
      {rows !== null && rows.length === 0 && <p class="quiet">No other shoot is called so.</p>}
      <ul>
        {rows?.map((row) => (
          <li key={row.id}>
            <button type="button" onClick={() => move(row.id)}>
              {titleOf(row)}
            </button>{" "}
            <span class="quiet small">{dayText(row.date)}</span>
          </li>
        ))}
      </ul>
    </div>
  );
}
