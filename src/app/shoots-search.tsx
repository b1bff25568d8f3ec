import { useEffect, useId, useRef, useState } from "preact/hooks";
import type { Bench } from "./bench.ts";
import { ChoiceField } from "./fields.tsx";
import { useStore } from "./hooks.ts";
import type { FoundShoots, Narrowing } from "./shoots-found.ts";
import { narrowedText, patternText, roomText, starWords } from "./shoots-words.ts";

/** After the last key: a word is looked for whole. */
const STILL_MS = 150;
const OF = "of the shoots";
const STARS = [1, 2, 3, 4, 5] as const;

/** What the list is narrowed by. Where the screen is narrow all but the words is folded away. */
export function Narrow({ bench, found }: { bench: Bench; found: FoundShoots }) {
  const { choices, narrowing, total } = useStore(found.store);
  const { units } = useStore(bench.view);
  const said = narrowedText(narrowing, units);
  const isSaid = said !== "" || (narrowing.text ?? "") !== "";
  // nothing to narrow but what is put away
  const isBare = total === 0 && !isSaid;
  const put = (change: Partial<Narrowing>) => void found.narrow(change);
  return (
    <search class="shoots-search">
      <Words text={narrowing.text ?? ""} put={(text) => put({ text })} />
      <details open={matchMedia("(min-width: 760px)").matches}>
        <summary>
          narrow<span class="quiet">{said !== "" && ` by ${said}`}</span>
        </summary>
        <fieldset class="group">
          <legend class="visually-hidden">narrow</legend>
          {!isBare && (
            <>
              <Choice
                label="pattern"
                value={narrowing.pattern}
                choices={choices.patterns}
                words={patternText}
                put={(pattern) => put({ pattern })}
              />
              <Choice
                label="light"
                value={narrowing.light}
                choices={choices.lights}
                put={(light) => put({ light })}
              />
              <Choice
                label="room"
                value={narrowing.room}
                choices={choices.rooms}
                words={(room) => roomText(room, units)}
                put={(room) => put({ room })}
              />
              <Day label="from" value={narrowing.from} put={(from) => put({ from })} />
              <Day label="to" value={narrowing.to} put={(to) => put({ to })} />
              <ChoiceField
                label="stars"
                of={OF}
                value={`${narrowing.stars ?? 0}`}
                choices={[["0", "any"], ...STARS.map((n) => [`${n}`, `${starWords(n)} or more`] as const)]}
                choose={(stars) => put({ stars: Number(stars) })}
              />
            </>
          )}
          <label class="tick">
            <input
              type="checkbox"
              checked={narrowing.putAway ?? false}
              onChange={(event) => put({ putAway: event.currentTarget.checked })}
            />
            <span>those put away</span>
          </label>
        </fieldset>
      </details>
      {isSaid && (
        <p>
          <button type="button" onClick={() => void found.clear()}>
            clear<span class="visually-hidden"> the search</span>
          </button>
        </p>
      )}
    </search>
  );
}

/** What is being typed stays as it is typed; it is looked for once the hand is still. */
function Words({ text, put }: { text: string; put: (text: string) => void }) {
  const id = useId();
  const [draft, setDraft] = useState(text);
  const sent = useRef(text);
  useEffect(() => {
    // cleared elsewhere
    if (text !== sent.current) setDraft(text);
    sent.current = text;
  }, [text]);
  useEffect(() => {
    if (draft.trim() === sent.current) return;
    const timer = setTimeout(() => {
      sent.current = draft.trim();
      put(sent.current);
    }, STILL_MS);
    return () => clearTimeout(timer);
  }, [draft]);
  return (
    <p class="search-words">
      <label for={id}>look for</label>
      <input
        id={id}
        type="search"
        autocomplete="off"
        spellcheck={false}
        maxLength={200}
        placeholder="title, place, client, notes, lights"
        value={draft}
        onInput={(event) => setDraft(event.currentTarget.value)}
      />
    </p>
  );
}

interface ChoiceProps {
  readonly label: string;
  readonly value: string | undefined;
  readonly choices: readonly string[];
  readonly words?: (value: string) => string;
  readonly put: (value: string) => void;
}

/** What there is to choose from, and what is chosen even where it is there no longer. */
function Choice({ label, value = "", choices, words = (text) => text, put }: ChoiceProps) {
  const known = value === "" || choices.includes(value) ? choices : [value, ...choices];
  return (
    <ChoiceField
      label={label}
      of={OF}
      value={value}
      choices={[["", "any"], ...known.map((choice) => [choice, words(choice)] as const)]}
      choose={put}
    />
  );
}

function Day({
  label,
  value = "",
  put,
}: {
  label: string;
  value: string | undefined;
  put: (day: string) => void;
}) {
  const id = useId();
  return (
    <div class="number">
      <label for={id}>
        {label}
        <span class="visually-hidden">, day</span>
      </label>
      <input
        id={id}
        type="date"
        value={value}
        onChange={(event) => {
          // a day that is typed halfway is none, and no reason to look for others
          if (event.currentTarget.validity.valid) put(event.currentTarget.value);
        }}
      />
    </div>
  );
}
