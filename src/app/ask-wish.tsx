import { useEffect, useId, useMemo, useRef, useState } from "preact/hooks";
import { type Ask, isAlready, type Remedy } from "../finder/index.ts";
import { type Pattern, patternName } from "../reading/index.ts";
import type { About, Question } from "./ask-follower.ts";
import { AskRemedies } from "./ask-remedies.tsx";
import {
  type AskKind,
  askWords,
  FIRST_STOPS,
  type Numbered,
  parseStops,
  stopsRefusal,
  stopsText,
  WISH_NOTES,
  WISHES,
} from "./ask-words.ts";
import { useWorked, Working } from "./ask-working.tsx";
import { type Bench, makeEdit } from "./bench.ts";
import { PATTERNS } from "./find-words.ts";
import { useStore } from "./hooks.ts";
import { NumberField } from "./number-field.tsx";

interface AskWishProps {
  readonly bench: Bench;
  readonly about: About;
}

/** A wish in plain words, and what was found for it. */
export function AskWish({ bench, about }: AskWishProps) {
  const { plan, person, units } = about;
  const { reading, readingOf } = useStore(bench.results.store);
  const [kind, setKind] = useState<AskKind>("pattern");
  const [pattern, setPattern] = useState<Pattern>("rembrandt");
  const [stops, setStops] = useState(FIRST_STOPS);
  const [asked, setAsked] = useState<Ask | null>(null);
  const [taken, setTaken] = useState<string | null>(null);
  const seek = useRef<HTMLButtonElement>(null);
  const ask = askOf(kind, pattern, stops);
  const isSo =
    asked !== null &&
    reading !== null &&
    readingOf === plan &&
    reading.people[person] !== undefined &&
    isAlready(asked, reading, person);
  const question = useMemo<Question<Remedy[]> | null>(
    () =>
      asked === null || isSo
        ? null
        : {
            about,
            work: (options) => bench.trials.remedies(plan, { person, units, ask: asked }, options),
          },
    [bench, about, asked, isSo],
  );
  const { worked, follower } = useWorked(question);
  const { answer } = worked;
  const isCurrent = question !== null && answer?.to === question;
  useEffect(() => {
    if (asked === null || answer === null || !isCurrent) return;
    const found = answer.is.length;
    bench.say.set(found === 0 ? NONE : `${found === 1 ? "One change" : `${found} changes`} found.`);
  }, [bench, answer, isCurrent, asked]);

  const wish = (next: () => void) => {
    next();
    setAsked(null);
    setTaken(null);
  };
  const take = ({ does, edit }: Remedy) => {
    const refused = makeEdit(bench, edit);
    setAsked(null);
    setTaken(refused ?? `Taken: ${does}.`);
    bench.say.set(refused ?? `Taken: ${does}. Undo takes it back.`);
    // the button that was pressed is gone
    seek.current?.focus();
  };
  return (
    <>
      <form
        class="asks-wish"
        onSubmit={(event) => {
          event.preventDefault();
          setTaken(null);
          setAsked(ask);
        }}
      >
        <Choice
          label="wish"
          value={kind}
          choices={WISHES.filter(([each]) => each !== "glasses" || plan.people[person]?.glasses != null)}
          choose={(each) => wish(() => setKind(each as AskKind))}
        />
        {kind === "pattern" && (
          <Choice
            label="pattern"
            value={pattern}
            choices={PATTERNS.map((each) => [each, patternName(each)] as const)}
            choose={(each) => wish(() => setPattern(each as Pattern))}
          />
        )}
        {kind !== "pattern" && kind !== "glasses" && (
          <NumberField
            key={kind}
            label="stops"
            of={WISHES.find(([each]) => each === kind)?.[1] ?? ""}
            text={stopsText(kind, stops[kind])}
            parse={parseStops}
            commit={(value) => {
              const refusal = stopsRefusal(kind, value);
              if (refusal === null) wish(() => setStops({ ...stops, [kind]: value }));
              return refusal;
            }}
            step={(way, large) => {
              const value = Number((stops[kind] + way * (large ? 1 : 0.1)).toFixed(1));
              // no change is no wish: over it
              const next = stopsRefusal(kind, value) === null ? value : value + way * 0.1;
              wish(() => setStops({ ...stops, [kind]: Number(next.toFixed(1)) }));
              return null;
            }}
          />
        )}
        <button type="submit" ref={seek}>
          find the smallest changes
        </button>
      </form>
      {WISH_NOTES[kind] !== "" && <p class="quiet small">{WISH_NOTES[kind]}</p>}
      {taken !== null && <p class="quiet">{taken}</p>}
      {isSo && <p>It is so already: {asked === null ? "" : askWords(asked)}.</p>}
      {asked !== null && !isSo && (
        <>
          <Working what="looking for the smallest changes" worked={worked} follower={follower} />
          {answer !== null && (isCurrent || worked.done !== null) && (
            <AskRemedies ask={asked} remedies={answer.is} isStale={!isCurrent} onTake={take} none={NONE} />
          )}
        </>
      )}
    </>
  );
}

const NONE =
  "Nothing within reach does it by itself: no turn, no stand, no power. It may take another light, or two smaller wishes, one after the other.";

function askOf(ask: AskKind, pattern: Pattern, stops: Readonly<Record<Numbered, number>>): Ask {
  switch (ask) {
    case "pattern":
      return { ask, pattern };
    case "glasses":
      return { ask };
    case "headroom":
      return { ask, toStops: stops.headroom };
    default:
      return { ask, byStops: stops[ask] };
  }
}

interface ChoiceProps {
  readonly label: string;
  readonly value: string;
  readonly choices: readonly (readonly [value: string, text: string])[];
  readonly choose: (value: string) => void;
}

function Choice({ label, value, choices, choose }: ChoiceProps) {
  const id = useId();
  return (
    <div class="asks-choice">
      <label class="visually-hidden" for={id}>
        {label}
      </label>
      <select id={id} value={value} onChange={(event) => choose(event.currentTarget.value)}>
        {choices.map(([key, text]) => (
          <option key={key} value={key} selected={key === value}>
            {text}
          </option>
        ))}
      </select>
    </div>
  );
}
