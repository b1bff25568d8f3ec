import { useRef } from "preact/hooks";
import type { Head } from "../figure/index.ts";
import type { FacePlace, ShadowGuess } from "./guess.ts";
import { placeWords } from "./guess-words.ts";
import { HeadSketch } from "./head-sketch.tsx";

interface GuessFaceProps {
  readonly head: Pick<Head, "landmarks" | "scale">;
  readonly guess: ShadowGuess | null;
  /** null while it is hidden, and where there is none */
  readonly truth: FacePlace | null;
  /** null once the guess is made */
  readonly onPlace: ((place: FacePlace) => void) | null;
}

/** What can be reached: the face, millimetres from the tip of its nose. */
const REACH = { aside: 75, up: 70, down: 90 };
const STEP_MM = 1;
const LARGE_STEP_MM = 5;
/** Millimetres on the page round the middle between the ears. */
const BOX = { x: -96, y: -136, width: 192, height: 254 };

const STEPS: Readonly<Record<string, readonly [left: number, up: number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** The face from straight ahead, on which the tip of the nose's shadow is placed: own left is on the right. */
export function GuessFace({ head, guess, truth, onPlace }: GuessFaceProps) {
  const svg = useRef<SVGSVGElement>(null);
  const mark = useRef<SVGGElement>(null);
  const [, aside, up] = head.landmarks.noseTip.map((m) => 1000 * m) as [number, number, number];
  const place = guess === null || guess === "none" ? null : guess;

  function put(event: PointerEvent) {
    const matrix = svg.current?.getScreenCTM();
    if (!matrix || onPlace === null) return;
    const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse());
    onPlace(within({ left_mm: at.x - aside, up_mm: -at.y - up }));
  }

  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset cannot be a drawing
    <svg
      ref={svg}
      class={onPlace === null ? "guess-face" : "guess-face open"}
      viewBox={`${BOX.x} ${BOX.y} ${BOX.width} ${BOX.height}`}
      role="group"
      aria-label="The face from straight ahead"
      onPointerDown={(event) => {
        if (event.button !== 0 || onPlace === null) return;
        event.preventDefault();
        event.currentTarget.setPointerCapture(event.pointerId);
        put(event);
        mark.current?.focus();
      }}
      onPointerMove={(event) => event.currentTarget.hasPointerCapture(event.pointerId) && put(event)}
    >
      <HeadSketch view="front" scale={head.scale} />
      <g transform={`translate(${aside} ${-up})`}>
        {truth !== null && (
          <g class="cool-line">
            {place !== null && (
              <path class="off" d={`M${place.left_mm},${-place.up_mm}L${truth.left_mm},${-truth.up_mm}`} />
            )}
            <circle class="cool-fill" cx={truth.left_mm} cy={-truth.up_mm} r={2.4} />
          </g>
        )}
        {onPlace === null ? (
          place !== null && <Cross {...place} />
        ) : (
          <g
            ref={mark}
            class="guess-mark"
            role="slider"
            tabindex={0}
            aria-label="tip of the nose’s shadow"
            aria-valuemin={-REACH.aside}
            aria-valuemax={REACH.aside}
            aria-valuenow={Math.round(place?.left_mm ?? 0)}
            aria-valuetext={place === null ? "not placed" : placeWords(place)}
            onKeyDown={(event) => {
              const step = STEPS[event.key];
              if (step === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
              event.preventDefault();
              const by = event.shiftKey ? LARGE_STEP_MM : STEP_MM;
              const from = place ?? { left_mm: 0, up_mm: 0 };
              onPlace(within({ left_mm: from.left_mm + by * step[0], up_mm: from.up_mm + by * step[1] }));
            }}
          >
            <Cross {...(place ?? { left_mm: 0, up_mm: 0 })} faint={place === null} />
          </g>
        )}
      </g>
    </svg>
  );
}

function Cross({ left_mm, up_mm, faint = false }: FacePlace & { faint?: boolean }) {
  return (
    <g class={faint ? "cross faint" : "cross"} transform={`translate(${left_mm} ${-up_mm})`}>
      <circle class="reach" r={8} />
      <circle r={5} />
      <path d="M-8,0H-2M2,0H8M0,-8V-2M0,2V8" />
    </g>
  );
}

/** Whole millimetres within reach. */
function within({ left_mm, up_mm }: FacePlace): FacePlace {
  const clamp = (mm: number, least: number, most: number) =>
    Math.round(Math.min(most, Math.max(least, mm))) || 0;
  return {
    left_mm: clamp(left_mm, -REACH.aside, REACH.aside),
    up_mm: clamp(up_mm, -REACH.down, REACH.up),
  };
}
