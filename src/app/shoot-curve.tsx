import { useState } from "preact/hooks";
import { exifLine, type ResponseCurve } from "../testframe/index.ts";
import { learnBody, type TestFrame } from "../workbench/index.ts";
import type { Bench } from "./bench.ts";
import { BookApart } from "./gear-apart.tsx";
import { cardOf, FEWEST_CARDS, type FittedBody, fitBracket } from "./shoot-card.ts";
import { useGear } from "./use-gear.ts";
import { capital } from "./wording.ts";

interface CurveProps {
  readonly bench: Bench;
  readonly frames: readonly TestFrame[];
}

/** A bracket of a grey card among the frames: the camera's own curve from it, kept with the body. */
export function CameraCurve({ bench, frames }: CurveProps) {
  const [isOpen, setOpen] = useState(false);
  return (
    <section class="camera-curve" aria-label="Camera's curve">
      <button type="button" aria-expanded={isOpen} onClick={() => setOpen(!isOpen)}>
        measure the camera by a grey card
      </button>
      {isOpen && <Bracket bench={bench} frames={frames} />}
    </section>
  );
}

function Bracket({ bench, frames }: CurveProps) {
  const [chosen, setChosen] = useState<ReadonlySet<string>>(new Set());
  const [fitted, setFitted] = useState<FittedBody | null>(null);
  const [isWorking, setWorking] = useState(false);
  const bracket = frames.filter(({ id }) => chosen.has(id));
  const toggle = (id: string) => {
    setFitted(null);
    setChosen(new Set(chosen.has(id) ? [...chosen].filter((each) => each !== id) : [...chosen, id]));
  };
  const measure = async () => {
    setWorking(true);
    try {
      setFitted(fitBracket(bracket, await Promise.all(bracket.map(cardOf))));
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      setFitted({ kind: "problem", problem: why, cure: "hand the frames over again" });
    }
    setWorking(false);
  };
  const lacks = FEWEST_CARDS - bracket.length;
  return (
    <div class="bracket">
      <p class="quiet">
        {FEWEST_CARDS} frames or more, from 3 stops under to 3 over, the card filling the middle under light
        that does not change. With flash, bracket by aperture.
      </p>
      <div class="bracket-list">
        <fieldset>
          <legend class="visually-hidden">frames of the card</legend>
          {frames.map(({ id, name, reading }) => (
            <label key={id} class="bracket-row">
              <input type="checkbox" checked={chosen.has(id)} onChange={() => toggle(id)} />
              <span>
                <span class="file-name">{name}</span>{" "}
                <span class="quiet">
                  {exifLine(reading.image.exif) ?? "nothing of its exposure in the file"}
                </span>
              </span>
            </label>
          ))}
        </fieldset>
      </div>
      <p class="row">
        <button type="button" onClick={() => setChosen(new Set(frames.map(({ id }) => id)))}>
          all of them
        </button>
        <button type="button" class="begin" disabled={lacks > 0 || isWorking} onClick={() => void measure()}>
          fit the curve
        </button>
        {lacks > 0 && <span class="quiet">{lacks} more to choose</span>}
      </p>
      {fitted !== null && <Fitted bench={bench} fitted={fitted} bracket={bracket} />}
    </div>
  );
}

function Fitted(props: { bench: Bench; fitted: FittedBody; bracket: readonly TestFrame[] }) {
  const { bench, bracket, fitted } = props;
  const gear = useGear(bench);
  const { book, failure, save } = gear;
  if (fitted.kind === "problem")
    return (
      <p class="alert" role="alert">
        {fitted.problem}; {fitted.cure}
      </p>
    );
  const { body, curve, leftOut } = fitted;
  const trouble = failure ?? (book?.notice === undefined ? undefined : `${capital(book.notice)}.`);
  const keep = () => {
    if (book !== null) void save(learnBody(book, body, curve, new Date().toISOString().slice(0, 10)));
  };
  const kept = book?.bodies[body];
  const isKept = kept !== undefined && JSON.stringify(kept.stops) === JSON.stringify(curve.stops);
  return (
    <div class="bracket-fit">
      <CurveDrawing curve={curve} />
      <p>
        <strong>{body}</strong>: {curve.frames} frames, within {curve.rmsStops.toFixed(2)} stop of the curve;
        it clips {curve.clippingStops.toFixed(1)} stops over middle grey
      </p>
      {leftOut.map(({ index, offStops }) => (
        <p key={index} class="stands-out">
          {bracket[index]?.name} lies {Math.abs(offStops).toFixed(1)} stop off and is left out
        </p>
      ))}
      {trouble !== undefined && <p class="alert">{trouble}</p>}
      <BookApart gear={gear} />
      {isKept ? (
        <p class="quiet">kept with the body: frames that come in from now on are read by it</p>
      ) : (
        <button type="button" class="begin" disabled={book === null} onClick={keep}>
          keep it with the body
        </button>
      )}
    </div>
  );
}

const WIDTH = 240;
const HEIGHT = 120;
/** Stops either side of middle grey that are drawn. */
const REACH = 5;

/** What a level of the file stands for: stops across, the level as it looks up the page. */
function CurveDrawing({ curve }: { curve: ResponseCurve }) {
  const x = (stops: number) => ((stops + REACH) / (2 * REACH)) * WIDTH;
  const last = curve.stops.length - 1;
  const points = curve.stops.flatMap((stops, i) =>
    Math.abs(stops) > REACH ? [] : [`${x(stops).toFixed(1)},${(HEIGHT * (1 - i / last)).toFixed(1)}`],
  );
  return (
    <svg
      class="curve"
      viewBox={`0 -4 ${WIDTH} ${HEIGHT + 22}`}
      role="img"
      aria-label={`The camera's curve, from ${REACH} stops under middle grey to ${REACH} over`}
    >
      <path class="tones-foot" d={`M0,${HEIGHT}H${WIDTH}M${x(0)},0V${HEIGHT}`} />
      <polyline points={points.join(" ")} />
      {[-4, -2, 0, 2, 4].map((stops) => (
        <text key={stops} x={x(stops)} y={HEIGHT + 14}>
          {stops === 0 ? "0" : `${stops < 0 ? "−" : "+"}${Math.abs(stops)}`}
        </text>
      ))}
    </svg>
  );
}
