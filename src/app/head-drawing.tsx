import { buildHead } from "../figure/index.ts";
import type { FaceReading } from "../reading/index.ts";
import { HeadSketch } from "./head-sketch.tsx";

const RADIANS = Math.PI / 180;
/** Millimetres: an arrow that lies in the page, from where it begins to where it ends, off the bridge of the nose. */
const FROM = 112;
const TO = 12;
/** How far apart the two views stand. */
const APART = 345;

/** Where the light comes from, on the figure's own head from the front and from the side, where the nose points to the
 * left. The arrow is the direction's true projection: short where it points at the reader. */
export function HeadDrawing({ light, text }: { light: FaceReading["light"]; text: string }) {
  const [ahead, , up] = buildHead().landmarks.noseBridge.map((m) => 1000 * m);
  return (
    <svg class="head" viewBox="-116 -134 572 254" role="img" aria-label={`The light comes from ${text}`}>
      <HeadSketch view="front" />
      <g transform={`translate(${APART} 0)`}>
        <HeadSketch view="side" />
      </g>
      {light.azimuth !== null && light.elevation !== null && (
        <>
          <Arrow x={0} y={-up} {...fromFront(light.azimuth, light.elevation)} />
          <Arrow x={APART - ahead} y={-up} {...fromSide(light.azimuth, light.elevation)} />
        </>
      )}
    </svg>
  );
}

/** Seen from the front the person's own left is on the right of the page. */
function fromFront(azimuth: number, elevation: number) {
  return {
    dx: Math.sin(azimuth * RADIANS) * Math.cos(elevation * RADIANS),
    dy: -Math.sin(elevation * RADIANS),
  };
}

/** Seen from the side with the nose to the left of the page. */
function fromSide(azimuth: number, elevation: number) {
  return {
    dx: -Math.cos(azimuth * RADIANS) * Math.cos(elevation * RADIANS),
    dy: -Math.sin(elevation * RADIANS),
  };
}

function Arrow({ x, y, dx, dy }: { x: number; y: number; dx: number; dy: number }) {
  const length = Math.hypot(dx, dy);
  if (length < 0.08) return <circle class="cool-line" cx={x} cy={y} r={TO} />;
  const [ux, uy] = [dx / length, dy / length];
  const at = (along: number, aside: number) =>
    `${x + along * ux - aside * uy},${y + along * uy + aside * ux}`;
  return (
    <g class="cool-line">
      <path d={`M${at(TO + 18 + (FROM - TO - 18) * length, 0)}L${at(TO + 16, 0)}`} />
      <path class="cool-fill" d={`M${at(TO + 24, 11)}L${at(TO, 0)}L${at(TO + 24, -11)}Z`} />
    </g>
  );
}
