import { useEffect, useId, useState } from "preact/hooks";
import { CARD_MM, type Screen } from "../deliver/index.ts";
import { METRES_PER_INCH } from "../units/index.ts";
import type { Bench } from "./bench.ts";
import { lengthText, parseLengthText } from "./entries.ts";
import { useSize, useStore } from "./hooks.ts";
import { useKept } from "./kept.ts";
import { NumberField } from "./number-field.tsx";

const MM_PER_INCH = 1000 * METRES_PER_INCH;
/** What a page's pixel stands for until a card is laid on the screen. */
const UNMEASURED_PX_MM = 96 / MM_PER_INCH;
/** Pixels a millimetre that screens have, in a page's pixels, from a wall to a phone held near. */
const LEAST_PX_MM = 1.2;
const MOST_PX_MM = 10;
/** A laptop on a table (common practice, no source). */
const USUAL_AWAY_M = 0.6;
const NEAREST_M = 0.1;
const FARTHEST_M = 20;

export interface MeasuredScreen extends Screen {
  readonly isMeasured: boolean;
  measure(pxPerMm: number): void;
  sit(away_m: number): void;
}

/** The screen as it was last measured here. Kept in its own pixels: a page that is zoomed is measured no less. */
export function useScreen(): MeasuredScreen {
  const [kept, keep] = useKept("screen.pixelsPerMm", "");
  const [sits, sit] = useKept("screen.away", String(USUAL_AWAY_M));
  const density = useDensity();
  const measured = Number(kept);
  const isMeasured = measured > 0 && Number.isFinite(measured);
  const away = Number(sits);
  return {
    density,
    isMeasured,
    pxPerMm: isMeasured ? measured / density : UNMEASURED_PX_MM,
    away_m: away >= NEAREST_M && away <= FARTHEST_M ? away : USUAL_AWAY_M,
    measure: (pxPerMm) => keep(String(Number((pxPerMm * density).toFixed(4)))),
    sit: (to) => sit(String(to)),
  };
}

/** The screen's own pixels for each of the page's, which zooming changes. */
function useDensity(): number {
  const [density, set] = useState(devicePixelRatio);
  useEffect(() => {
    const follow = () => set(devicePixelRatio);
    addEventListener("resize", follow);
    return () => removeEventListener("resize", follow);
  }, []);
  return density;
}

/** A bank card laid on the glass, or a ruler, says how large the screen is; a tape, or a guess, from where it is looked at. */
export function ScreenFields({ bench, screen }: { bench: Bench; screen: MeasuredScreen }) {
  const { units } = useStore(bench.view);
  const id = useId();
  const [box, size] = useSize<HTMLDivElement>();
  const { pxPerMm } = screen;
  const [long, short] = [CARD_MM.width * pxPerMm, CARD_MM.height * pxPerMm];
  const isUpright = size !== null && long > size.width;
  const perInch = Math.round(pxPerMm * MM_PER_INCH);
  const sit = (to: number) => {
    if (!(to >= NEAREST_M && to <= FARTHEST_M))
      return `It must be from ${lengthText(NEAREST_M, units)} to ${lengthText(FARTHEST_M, units)}.`;
    screen.sit(to);
    return null;
  };
  return (
    <div class="use-screen" ref={box}>
      <NumberField
        label="you sit from it"
        of="screen"
        text={lengthText(screen.away_m, units)}
        parse={(text) => parseLengthText(text, units)}
        commit={sit}
      />
      <p>
        Lay a bank card on the outline, or a ruler: it is 85.6 mm long. Make it fit with the slider.{" "}
        <span class="quiet">
          {screen.isMeasured
            ? `Measured: ${perInch} of the page’s pixels an inch.`
            : `Not measured yet: ${perInch} of the page’s pixels an inch are taken.`}
        </span>
      </p>
      <label for={id} class="visually-hidden">
        length of the card on this screen
      </label>
      <input
        id={id}
        type="range"
        min={LEAST_PX_MM}
        max={MOST_PX_MM}
        step={0.01}
        value={pxPerMm}
        aria-valuetext={`${perInch} pixels an inch`}
        onInput={(event) => screen.measure(Number(event.currentTarget.value))}
      />
      <div class="card-place">
        <div
          class="card-outline"
          style={{ width: `${isUpright ? short : long}px`, height: `${isUpright ? long : short}px` }}
        >
          <span>bank card</span>
        </div>
      </div>
    </div>
  );
}
