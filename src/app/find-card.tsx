import { useMemo } from "preact/hooks";
import type { SetUp } from "../finder/index.ts";
import { type Plan, wattSecondsText, writePower } from "../plan/index.ts";
import { frameAspect } from "../reading/index.ts";
import { overheadCautions } from "../safety/index.ts";
import { type Drawing, type Extent, measurePlaces } from "../sheet/index.ts";
import { formatFStops, type LengthUnits, lengthsIn } from "../units/index.ts";
import type { Bench } from "./bench.ts";
import { rounded } from "./fields.tsx";
import { useFrameOf } from "./find-picture.ts";
import { holdWords, WISH_WORDS, wishLine } from "./find-words.ts";
import { PLAIN_LOOK } from "./frame-look.ts";
import { FrameView } from "./frame-view.tsx";
import { useSize } from "./hooks.ts";
import { frontWords, fullPower_Ws } from "./light-words.ts";
import { FloorLines } from "./start-drawing.tsx";

interface CardProps {
  readonly bench: Bench;
  readonly setUp: SetUp;
  /** its place among the answers */
  readonly index: number;
  readonly floor: Drawing | null;
  /** of all the answers' floors together, so that they have one scale */
  readonly extent: Extent | null;
  readonly units: LengthUnits;
  readonly isTaken: boolean;
  readonly take: () => void;
}

/** One set-up that was found: its picture, its floor, what it takes, what of the brief it meets. */
export function SetUpCard({ bench, setUp, index, floor, extent, units, isTaken, take }: CardProps) {
  const { plan, title } = setUp;
  const said = lengthsIn(title, units);
  const id = `set-up-${index}`;
  return (
    <li class={setUp.isMet ? "card" : "card misses"}>
      <article aria-labelledby={id}>
        <Picture bench={bench} plan={plan} index={index} label={`The picture with ${said}`} />
        <h3 id={id} tabIndex={-1}>
          {said}
        </h3>
        <p class="card-take">
          {isTaken ? (
            <span class="quiet">on the table now</span>
          ) : (
            <button type="button" class="begin" onClick={take}>
              take this plan<span class="visually-hidden">: {said}</span>
            </button>
          )}
        </p>
        <div class="card-floor">
          {floor !== null && extent !== null && (
            <Floor floor={floor} extent={extent} label={`Floor: ${said}`} />
          )}
        </div>
        <Gear plan={plan} units={units} />
        <Wishes setUp={setUp} units={units} />
        <div class="card-notes">
          <p class="quiet">{holdWords(setUp.hold, units)}</p>
          <Overhead plan={plan} />
        </div>
      </article>
    </li>
  );
}

function Picture(props: { bench: Bench; plan: Plan; index: number; label: string }) {
  const { bench, plan, index, label } = props;
  const [box, size] = useSize<HTMLDivElement>();
  const finders = bench.finders();
  const computer = finders[index % finders.length] ?? bench.trials;
  const width_px = size === null ? 0 : Math.round(size.width * Math.min(2, devicePixelRatio));
  const picture = useFrameOf(computer, plan, width_px);
  const { fNumber, focalLength } = plan.camera;
  return (
    <figure class="framed">
      <div ref={box}>
        <FrameView picture={picture} aspect={frameAspect(plan.camera)} look={PLAIN_LOOK} label={label} />
      </div>
      <figcaption>
        {picture === null ? "being worked out…" : `${formatFStops(fNumber)}, ${rounded(focalLength, 1)} mm`}
      </figcaption>
    </figure>
  );
}

/** Drawing pixels across; on the page it is as wide as its card. */
const ACROSS = 200;
/** A floor deeper than so much of its width is drawn as deep, and the card's width is not filled. */
const DEEPEST = 1.3;

function Floor({ floor, extent, label }: { floor: Drawing; extent: Extent; label: string }) {
  const shape = (extent.up1 - extent.up0) / Math.max(0.1, extent.across1 - extent.across0);
  const size = { width: ACROSS, height: Math.round(ACROSS * Math.min(DEEPEST, shape)) };
  return (
    <svg class="small-floor" viewBox={`0 0 ${size.width} ${size.height}`} role="img" aria-label={label}>
      <FloorLines drawing={floor} extent={extent} size={size} />
    </svg>
  );
}

/** What each light is set to. */
function Gear({ plan, units }: { plan: Plan; units: LengthUnits }) {
  return (
    <ul class="card-gear">
      {plan.lights
        .filter((light) => light.on)
        .map(({ dial, face, name, output }) => {
          const full = fullPower_Ws(output);
          const set = "stopsDown" in output ? writePower(output.stopsDown, dial, full) : "as it is";
          return (
            <li key={name}>
              <strong>{name}</strong> {set}
              {full !== null && dial.marked !== "wattSeconds" && ` of ${wattSecondsText(full)}`}
              <span class="quiet">, {frontWords(face, units)}</span>
            </li>
          );
        })}
      {plan.panels.map(({ name }) => (
        <li key={name}>{name}</li>
      ))}
    </ul>
  );
}

/** What of the brief is met and by how much; what is missed comes first, and why. */
function Wishes({ setUp, units }: { setUp: SetUp; units: LengthUnits }) {
  const wishes = [...setUp.wishes].sort((a, b) => Number(a.isMet) - Number(b.isMet));
  return (
    <dl class="wishes">
      {wishes.map((wish) => (
        <div key={wish.wish} class={wish.isMet ? undefined : "alert"}>
          <dt>{WISH_WORDS[wish.wish]}</dt>
          <dd>
            <strong>{lengthsIn(wish.got, units)}</strong> <span>{wishLine(wish, units)}</span>
            {!wish.isMet && wish.why !== null && <span class="line">{lengthsIn(wish.why, units)}</span>}
          </dd>
        </div>
      ))}
    </dl>
  );
}

/** Weights over somebody's head, in the words of the sheet. */
function Overhead({ plan }: { plan: Plan }) {
  const cautions = useMemo(() => overheadCautions(plan, measurePlaces(plan).noses), [plan]);
  return (
    <>
      {cautions.map(({ path, text }) => (
        <p key={path} class="alert">
          {text}
        </p>
      ))}
    </>
  );
}
