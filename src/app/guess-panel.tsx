import { useEffect, useId, useMemo, useRef, useState } from "preact/hooks";
import { buildHead } from "../figure/index.ts";
import type { Plan } from "../plan/index.ts";
import type { MeterReading } from "../reading/index.ts";
import { formatShutter } from "../units/index.ts";
import { type Bench, makeEdit } from "./bench.ts";
import { fNumberText, parseFNumber } from "./entries.ts";
import { type Guess, isGuessing, NO_GUESS_YET } from "./guess.ts";
import { type AskedMeter, askedMeter } from "./guess-answers.ts";
import { GuessFace } from "./guess-face.tsx";
import { nextQuestions } from "./guess-next.ts";
import { placeWords, powerVerdict, shadowVerdict, truePlace, type Verdict } from "./guess-words.ts";
import { useStore } from "./hooks.ts";
import { chosenPerson } from "./layer-height.ts";
import { NumberField } from "./number-field.tsx";
import { ReadingLine } from "./reading-line.tsx";
import type { Results } from "./results.ts";

interface GuessPanelProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly results: Results;
}

/** The guess: the nose's shadow and the f-number, then how far off they were. */
export function GuessPanel({ bench, plan, results }: GuessPanelProps) {
  const view = useStore(bench.view);
  const title = useId();
  const round = useRef(0);
  const { guess } = view;
  const guessing = isGuessing(guess);
  // what was said last would tell as well
  useEffect(() => {
    if (guessing) bench.say.set("");
  }, [bench, guessing]);
  const person = chosenPerson(plan, view);
  const who = plan.people[person];
  if (guess === null) return null;
  const put = (change: Partial<Guess>) => bench.view.update({ guess: { ...guess, ...change } });
  const end = () => bench.view.update({ guess: null });
  const next = () => {
    const { plan: whole } = bench.session.get();
    for (const { edit, question } of nextQuestions(whole, person, round.current)) {
      round.current = question + 1;
      if (makeEdit(bench, edit) === null) break;
    }
    bench.view.update({ guess: NO_GUESS_YET });
  };
  return (
    <section class={guess.compared ? "guess compared" : "guess"} aria-labelledby={title}>
      <header class="section-head">
        <h2 id={title}>Guess, then see</h2>
        <button type="button" onClick={end}>
          end
        </button>
      </header>
      {who === undefined ? (
        <p class="quiet">Nobody stands in this plan: there is no face to guess about. Add a person.</p>
      ) : guessing ? (
        <Question bench={bench} plan={plan} person={person} guess={guess} put={put} />
      ) : (
        <Answer
          {...{ bench, plan, person, guess, results }}
          again={() => bench.view.update({ guess: NO_GUESS_YET })}
          next={next}
        />
      )}
    </section>
  );
}

function Question(props: {
  bench: Bench;
  plan: Plan;
  person: number;
  guess: Guess;
  put: (change: Partial<Guess>) => void;
}) {
  const { plan, person, guess, put } = props;
  const { shadow, fNumber } = guess;
  const asked = askedMeter(plan, person);
  const head = buildHead(plan.people[person]?.headSize);
  const ready = shadow !== null && fNumber !== null;
  const start = fNumber ?? 8;
  return (
    <>
      <p>
        Look at the plan. Where does the <strong>tip of the nose’s shadow</strong> fall, and what does the
        meter read?
      </p>
      <div class="guess-row">
        <GuessFace head={head} guess={shadow} truth={null} onPlace={(place) => put({ shadow: place })} />
        <div class="guess-asked">
          <p>
            {shadow === null
              ? "Press on the face, or move the mark by arrow keys: 1 mm, with Shift 5 mm."
              : shadow === "none"
                ? "No tip: flat light keeps the shadow to the nose, or it runs on into the dark side."
                : `${placeWords(shadow)}, from the tip of the nose.`}
          </p>
          <button
            type="button"
            aria-pressed={shadow === "none"}
            onClick={() => put({ shadow: shadow === "none" ? null : "none" })}
          >
            none: it has no tip
          </button>
          <NumberField
            label={`f-number ${asked.words}`}
            text={fNumber === null ? "" : fNumberText(fNumber)}
            parse={parseFNumber}
            commit={(value) => {
              put({ fNumber: value });
              return null;
            }}
            step={(way, large) => {
              put({ fNumber: start * 2 ** ((way * (large ? 1 : 0.1)) / 2) });
              return null;
            }}
          />
          <p class="quiet">
            at ISO {plan.camera.iso}, {formatShutter(plan.camera.shutter)}; such as f/5.6 + 0.3. Up and down
            step a tenth, with Shift a stop.
          </p>
          <p>
            <button type="button" disabled={!ready} onClick={() => put({ compared: true })}>
              compare
            </button>
          </p>
        </div>
      </div>
      <p class="quiet">Frame, reading and layers are put away until then.</p>
    </>
  );
}

interface AnswerProps extends GuessPanelProps {
  readonly person: number;
  readonly guess: Guess;
  readonly again: () => void;
  readonly next: () => void;
}

function Answer({ bench, plan, person, guess, results, again, next }: AnswerProps) {
  const meter = useAskedReading(bench, plan, person, results);
  const face = results.readingOf === plan ? results.reading?.people[person]?.face : undefined;
  const truth = face === undefined ? null : truePlace(face.noseShadow);
  const shadow = face && guess.shadow !== null ? shadowVerdict(guess.shadow, truth, face.pattern) : null;
  const power =
    meter !== null && guess.fNumber !== null
      ? powerVerdict(guess.fNumber, meter.reading, fNumberText(guess.fNumber))
      : null;
  const said = shadow && power ? `${spoken(shadow)}. ${spoken(power)}.` : null;
  useEffect(() => {
    if (said !== null) bench.say.set(said);
  }, [bench, said]);
  return (
    <div class="guess-row">
      <GuessFace
        head={buildHead(plan.people[person]?.headSize)}
        guess={guess.shadow}
        truth={truth}
        onPlace={null}
      />
      <div class="guess-asked">
        <dl class="meter-column">
          {shadow && <ReadingLine term="shadow" {...shadow} />}
          {power && meter && (
            <ReadingLine term="f-number" {...power} detail={`${power.detail} ${meter.words}`} />
          )}
        </dl>
        {said === null && <p class="quiet">The light is being worked out.</p>}
        <p class="row">
          <button type="button" onClick={again}>
            ask again
          </button>
          <button type="button" onClick={next}>
            next<span class="visually-hidden">: the light is carried to another place</span>
          </button>
        </p>
      </div>
    </div>
  );
}

const spoken = ({ strong, rest, detail }: Verdict) => `${rest.replace("the ", "")}: ${strong}; ${detail}`;

/** The reading of the meter that was asked about, of this very plan; null until it is there. A plan without a meter for
 * light that arrives is read once more, with a dome before the face. */
function useAskedReading(bench: Bench, plan: Plan, person: number, results: Results) {
  const asked = useMemo(() => askedMeter(plan, person), [plan, person]);
  const [tried, setTried] = useState<{ asked: AskedMeter; reading: MeterReading } | null>(null);
  useEffect(() => {
    if (asked.plan === plan) return;
    const stop = new AbortController();
    bench.trials.read(asked.plan, "fine", { signal: stop.signal }).then(
      ({ meters }) => {
        const reading = meters[asked.index];
        if (reading !== undefined) setTried({ asked, reading });
      },
      () => {
        // stopped, or failed as the plan's own reading does, which says so
      },
    );
    return () => stop.abort();
  }, [bench, plan, asked]);
  const own = results.readingOf === plan ? results.reading?.meters[asked.index] : undefined;
  const reading = asked.plan === plan ? own : tried?.asked === asked ? tried.reading : undefined;
  return reading === undefined ? null : { words: asked.words, reading };
}
