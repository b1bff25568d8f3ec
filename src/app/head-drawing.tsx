import type { FaceReading } from "../reading/index.ts";

const RADIANS = Math.PI / 180;

/** Where the light comes from, on a small head from the front and from the side. The arrow is the direction's
 * true projection: short where it points at the reader. */
export function HeadDrawing({ light, text }: { light: FaceReading["light"]; text: string }) {
  return (
    <svg class="head" viewBox="0 0 232 112" role="img" aria-label={`The light comes from ${text}`}>
      <g class="ink-line">
        <path d="M56 9C77 9 88 25 87 47C86 68 73 95 56 98C39 95 26 68 25 47C24 25 35 9 56 9Z" />
        <path d="M36 43q7-4 14-1M62 42q7-3 14 1M38 51q5-4 11 0M63 51q6-4 11 0M56 50l-3 18q3 3 6 1M47 80q9 3 18 0" />
        <path d="M166 108c1-8 1-12 0-16c-7 3-15 3-17-2c-1-4 1-5 0-8l-2-3l1-3l-2-3l3-5l-8-3c3-7 7-13 7-19c-2-3-2-8-1-12C152 14 169 5 186 8C207 12 215 32 211 52C209 63 203 72 201 80C200 90 201 99 203 108" />
        <path d="M152 50q4-2 8 0M154 42q5-3 9-1M183 50q5-5 8 0q2 6-3 12q-4 3-5-2" />
      </g>
      {light.azimuth !== null && light.elevation !== null && (
        <>
          <Arrow x={56} y={50} {...fromFront(light.azimuth, light.elevation)} />
          <Arrow x={149} y={47} {...fromSide(light.azimuth, light.elevation)} />
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
  if (length < 0.08) return <circle class="cool-line" cx={x} cy={y} r={6} />;
  const [ux, uy] = [dx / length, dy / length];
  const tail = 6 + 44 * length;
  const tip = { x: x + ux * 4, y: y + uy * 4 };
  const wing = (side: number) => `${tip.x + ux * 9 - side * uy * 4},${tip.y + uy * 9 + side * ux * 4}`;
  return (
    <g class="cool-line">
      <path d={`M${x + ux * tail},${y + uy * tail}L${tip.x + ux * 6},${tip.y + uy * 6}`} />
      <path class="cool-fill" d={`M${wing(1)}L${tip.x},${tip.y}L${wing(-1)}Z`} />
    </g>
  );
}
