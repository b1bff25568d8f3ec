import type { Catchlight, FaceReading } from "../reading/index.ts";

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

/** Both eyes as the camera sees them, the person's right eye on the left of the page, with what each shows. */
export function EyesDrawing({ catchlights, text }: { catchlights: readonly Catchlight[]; text: string }) {
  return (
    <svg class="eyes" viewBox="0 0 140 44" role="img" aria-label={`Catchlights: ${text}`}>
      <Eye x={34} shown={catchlights.filter((c) => c.eye === "right" && c.visible)} />
      <Eye x={106} shown={catchlights.filter((c) => c.eye === "left" && c.visible)} />
    </svg>
  );
}

const IRIS = 13;

function Eye({ x, shown }: { x: number; shown: readonly Catchlight[] }) {
  return (
    <g transform={`translate(${x} 22)`}>
      <path class="ink-line" d="M-31 2C-20-17 16-18 31 3C18 16-16 17-31 2Z" />
      <circle class="ink-line iris" r={IRIS} />
      <circle class="ink-fill" r={5.5} />
      {shown.map((light) => {
        const angle = (light.clock / 12) * 2 * Math.PI;
        return (
          <circle
            key={light.light}
            class="catchlight"
            cx={Math.sin(angle) * IRIS * 0.56}
            cy={-Math.cos(angle) * IRIS * 0.56}
            r={2.6}
          />
        );
      })}
    </g>
  );
}

/** "key at 1 o'clock in both eyes" */
export function catchlightWords(catchlights: readonly Catchlight[]): string {
  const seen = catchlights.filter((c) => c.visible);
  if (seen.length === 0) return "no catchlight in either eye";
  const names = [...new Set(seen.map((c) => c.light))];
  return names
    .map((name) => {
      const [first, second] = seen.filter((c) => c.light === name);
      if (first === undefined) return "";
      if (second === undefined) return `${name} at ${hour(first.clock)} in the ${first.eye} eye only`;
      if (hour(first.clock) === hour(second.clock)) return `${name} at ${hour(first.clock)} in both eyes`;
      return `${name} at ${hour(first.clock)} ${first.eye}, ${hour(second.clock)} ${second.eye}`;
    })
    .join("; ");
}

/** Half hours: "1 o'clock", "half past 10". */
export function hour(clock: number): string {
  const halves = ((Math.round(clock * 2) % 24) + 24) % 24;
  const whole = Math.floor(halves / 2) === 0 ? 12 : Math.floor(halves / 2);
  return halves % 2 === 0 ? `${whole} o'clock` : `half past ${whole}`;
}
