import { useMemo } from "preact/hooks";
import type { PhotoFace, PhotoReading } from "../testframe/index.ts";
import { percent, signedStops } from "./wording.ts";

/** The drawing, in its own units: twelve stops across, clipping at the end of them. */
const WIDTH = 360;
const HEIGHT = 84;
const STOP = WIDTH / 12;
const FOOT = 16;
/** What clips stands past the end, apart from what does not. */
const APART = 8;
const CLIP = 14;

/** How the picture's tones lie under clipping, a tenth of a stop wide each and as many as there are; what clips stands
 * at the end by itself. The height is the square root of the share against that of the fullest tenth: an even backdrop
 * fills one of them and must not flatten the rest. */
export function TonesDrawing({ image, face }: { image: PhotoReading["image"]; face: PhotoFace | null }) {
  const { clipped, histogram } = image;
  const path = useMemo(() => outline(histogram), [histogram]);
  const lit = face?.litCheekStops ?? null;
  const fullest = Math.max(...histogram.slice(0, -1), 1e-9);
  const over = Math.sqrt(Math.min(1, clipped.any / fullest));
  const label = `Tones in stops under clipping; ${clipWords(image)}${lit === null ? "" : `; the lit cheek ${signedStops(-lit)}`}`;
  return (
    <svg
      class="tones"
      viewBox={`-2 -14 ${WIDTH + APART + CLIP + 6} ${HEIGHT + FOOT + 14}`}
      role="img"
      aria-label={label}
    >
      <path class="tones-fill" d={path} />
      <path class="tones-foot" d={`M0,${HEIGHT}H${WIDTH}`} />
      {[0, 2, 4, 6, 8, 10, 12].map((stops) => (
        <g key={stops}>
          <path class="tones-foot" d={`M${WIDTH - stops * STOP},${HEIGHT}v4`} />
          <text x={WIDTH - stops * STOP} y={HEIGHT + 14} text-anchor={stops === 12 ? "start" : "middle"}>
            {stops === 0 ? "0" : `−${stops}`}
          </text>
        </g>
      ))}
      <rect
        class="tones-clip"
        x={WIDTH + APART}
        y={HEIGHT - over * HEIGHT}
        width={CLIP}
        height={over * HEIGHT}
      />
      <path class="tones-foot" d={`M${WIDTH + APART},${HEIGHT}h${CLIP}`} />
      {lit !== null && lit >= 0 && lit <= 12 && (
        <g class="tones-mark">
          <path d={`M${WIDTH - lit * STOP},${HEIGHT}V-2`} />
          <text x={WIDTH - lit * STOP - 4} y={-4} text-anchor="end">
            lit cheek
          </text>
        </g>
      )}
    </svg>
  );
}

/** Steps along the bins, darkest first: drawn as they are, nothing smoothed. */
function outline(histogram: readonly number[]): string {
  // the last holds everything darker, however dark: it is no tenth of a stop
  const bins = histogram.slice(0, -1);
  const fullest = Math.max(...bins, 1e-9);
  const tenth = STOP / 10;
  let d = `M${WIDTH - bins.length * tenth},${HEIGHT}`;
  for (let i = bins.length - 1; i >= 0; i--) {
    const y = HEIGHT - Math.sqrt((bins[i] as number) / fullest) * HEIGHT;
    d += `V${y.toFixed(1)}H${(WIDTH - i * tenth).toFixed(1)}`;
  }
  return `${d}V${HEIGHT}Z`;
}

/** "nothing clips", "0.4 % clips: red 0.4 %, green 0.1 %" */
export function clipWords({ clipped }: Pick<PhotoReading["image"], "clipped">): string {
  if (clipped.any === 0) return "nothing clips";
  const channels = (["red", "green", "blue"] as const)
    .filter((channel) => clipped[channel] > 0)
    .map((channel) => `${channel} ${percent(clipped[channel])}`);
  return `${percent(clipped.any)} of the picture clips: ${channels.join(", ")}`;
}

/** "closest to clipping: red, 0.3 stop under" */
export function nearWords({ headroomStops }: Pick<PhotoReading["image"], "headroomStops">): string {
  const channels = ["red", "green", "blue"] as const;
  const nearest = channels.reduce((a, b) => (headroomStops[b] < headroomStops[a] ? b : a));
  const stops = headroomStops[nearest];
  return stops <= 0 ? `${nearest} clips first` : `${nearest} comes nearest, ${stops.toFixed(1)} under`;
}
