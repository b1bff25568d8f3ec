import type { Angles } from "../testframe/index.ts";

interface ArrowProps {
  /** where it points to, in the units of the drawing */
  readonly x: number;
  readonly y: number;
  /** height of the face, the same units */
  readonly size: number;
  readonly from: Angles;
  /** a second light, fainter than the main one */
  readonly isSecond?: boolean;
}

const RADIANS = Math.PI / 180;

/** Where the light comes from as the camera sees it, in the cool colour with a dark edge that holds on every tone. The
 * true projection: short where the light stands by the camera; dashed where it stands behind the face. */
export function LightArrow({ x, y, size, from, isSecond = false }: ArrowProps) {
  const [az, el] = [from.azimuth * RADIANS, from.elevation * RADIANS];
  const aside = Math.cos(el) * Math.sin(az);
  const down = -Math.sin(el);
  const isBehind = Math.cos(el) * Math.cos(az) < 0;
  const length = Math.hypot(aside, down);
  const [tip, head, reach] = [0.06 * size, 0.09 * size, (isSecond ? 0.55 : 0.85) * size];
  if (length < 0.08) {
    return (
      <g class="arrow">
        <circle class="casing" cx={x} cy={y} r={tip} />
        <circle class="shaft" cx={x} cy={y} r={tip} />
      </g>
    );
  }
  const [ux, uy] = [aside / length, down / length];
  const at = (along: number, across: number) =>
    `${(x + along * ux - across * uy).toFixed(2)},${(y + along * uy + across * ux).toFixed(2)}`;
  const shaft = `M${at(tip + head + reach * length, 0)}L${at(tip + head, 0)}`;
  const barb = `M${at(tip + head, 0.4 * head)}L${at(tip, 0)}L${at(tip + head, -0.4 * head)}Z`;
  return (
    <g class={isSecond ? "arrow second" : "arrow"} data-behind={isBehind}>
      <path class="casing" d={shaft} />
      <path class="casing" d={barb} />
      <path class="shaft" d={shaft} />
      <path class="barb" d={barb} />
    </g>
  );
}
