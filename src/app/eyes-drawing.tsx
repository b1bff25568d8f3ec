import { useId } from "preact/hooks";
import type { Catchlight } from "../reading/index.ts";

/** Radius of a drawn iris: as large as two eyes fit side by side, for a catchlight is a tenth of it. */
const IRIS = 24;
/** A pupil of studio light over the iris. */
const PUPIL = 0.32;
/** What is smaller than this is drawn as a dot of this radius, so that it can be found. */
const DOT = 1.7;

/** Both eyes as the camera sees them, the person's right eye on the left of the page, with what each shows: outlines at
 * scale, lights solid, panels and walls faint. */
export function EyesDrawing({ catchlights, text }: { catchlights: readonly Catchlight[]; text: string }) {
  return (
    <svg class="eyes" viewBox="0 0 140 52" role="img" aria-label={`Catchlights: ${text}`}>
      <Eye x={34} shown={catchlights.filter((c) => c.eye === "right" && c.visible)} />
      <Eye x={106} shown={catchlights.filter((c) => c.eye === "left" && c.visible)} />
    </svg>
  );
}

/** Lids are hinted at; what they hide of a light is left out of its outline already. */
const UPPER_LID = "M-32 4C-21-24 20-26 32 4";
const LOWER_LID = "M-29 9C-16 22 17 22 29 9";

function Eye({ x, shown }: { x: number; shown: readonly Catchlight[] }) {
  const opening = useId();
  // lights lie over what is faint
  const inOrder = [...shown].sort((a, b) => Number(a.kind === "light") - Number(b.kind === "light"));
  return (
    <g transform={`translate(${x} 29)`}>
      <clipPath id={opening}>
        <path d="M-32 4C-21-24 20-26 32 4L29 9C17 22-16 22-29 9Z" />
      </clipPath>
      <g clip-path={`url(#${opening})`}>
        <rect class="white" x={-34} y={-24} width={68} height={48} />
        <circle class="iris" r={IRIS} />
        <circle class="pupil" r={PUPIL * IRIS} />
      </g>
      {inOrder.map((light) => (
        <Reflection key={`${light.kind} ${light.light}`} light={light} />
      ))}
      <path class="ink-line" d={UPPER_LID} />
      <path class="ink-line" d={LOWER_LID} />
    </g>
  );
}

function Reflection({ light }: { light: Catchlight }) {
  const points = light.outline.map(([right, up]) => [IRIS * right, -IRIS * up] as const);
  const opacity = light.kind === "light" ? undefined : 0.35;
  const spans = [0, 1].map((k) => {
    const along = points.map((p) => p[k]);
    return Math.max(...along) - Math.min(...along);
  });
  if (points.length < 3 || Math.max(...spans) < 2 * DOT) {
    const middle = [0, 1].map((k) => points.reduce((sum, p) => sum + p[k], 0) / points.length);
    return <circle class="catchlight" cx={middle[0]} cy={middle[1]} r={DOT} opacity={opacity} />;
  }
  const path = points.map(([x, y]) => `${x.toFixed(2)},${y.toFixed(2)}`).join(" ");
  return <polygon class="catchlight" points={path} opacity={opacity} />;
}
