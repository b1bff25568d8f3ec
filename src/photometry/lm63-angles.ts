/** The angles of a photometric file of type C: what they may be, and what they leave to symmetry. */

export interface AngleFault {
  readonly horizontal: boolean;
  readonly index: number;
  readonly what: string;
}

/** Vertical angles run from 0 to 90, from 90 to 180 or from 0 to 180 degrees; 0 is the lamp's axis. */
export function verticalFault(v: Float64Array): AngleFault | null {
  const fault = (index: number, what: string) => ({ horizontal: false, index, what });
  const down = ascending(v);
  if (down > 0)
    return fault(
      down,
      `vertical angles must rise by ${FINEST_DEG} or more; ${v[down]} comes after ${v[down - 1]}`,
    );
  const last = v.length - 1;
  if (v[0] !== 0 && v[0] !== 90) return fault(0, `the first vertical angle must be 0 or 90; it is ${v[0]}`);
  if (v[last] !== 180 && !(v[last] === 90 && v[0] === 0))
    return fault(
      last,
      `the last vertical angle must be ${v[0] === 0 ? "90 or 180" : "180"}; it is ${v[last]}`,
    );
  return null;
}

/** Horizontal angles begin at 0 and end at 0, 90, 180 or beyond up to 360; or run from 90 to 270. */
export function horizontalFault(h: Float64Array): AngleFault | null {
  const fault = (index: number, what: string) => ({ horizontal: true, index, what });
  const down = ascending(h);
  if (down > 0)
    return fault(
      down,
      `horizontal angles must rise by ${FINEST_DEG} or more; ${h[down]} comes after ${h[down - 1]}`,
    );
  const last = h[h.length - 1];
  if (h[0] === 90 && last === 270) return null;
  if (h[0] !== 0)
    return fault(0, `the first horizontal angle must be 0, or 90 where the last is 270; it is ${h[0]}`);
  if (last === 0 || last === 90 || last === 180 || (last > 180 && last <= 360)) return null;
  return fault(h.length - 1, `the last horizontal angle must be 0, 90, 180 or more up to 360; it is ${last}`);
}

/** No goniometer is finer; between angles nearer to each other the flux would lose its digits. */
const FINEST_DEG = 0.001;

/** The first angle that does not rise, 0 where all do. */
function ascending(angles: Float64Array): number {
  // a thousandth as written in decimals may come out a little under one
  const least = FINEST_DEG * (1 - 1e-6);
  for (let i = 1; i < angles.length; i++) if (!(angles[i] - angles[i - 1] >= least)) return i;
  return 0;
}

/** The full circle that the angles stand for: angles from 0 to 360, and which of the file's columns each takes; one and
 * a half is half way between column 1 and column 2. One angle alone stays alone: the same all round.
 * Source  LM-63: last angle 0 axial, 90 quadrants, 180 (or 90 to 270) bilateral, beyond 180 none */
export function fullCircle(h: Float64Array): { angles_deg: number[]; columns: number[] } {
  if (h.length === 1) return { angles_deg: [0], columns: [0] };
  const last = h[h.length - 1];
  // as written, should the planes at 0 and 360 differ
  if (last === 360) return { angles_deg: Array.from(h), columns: Array.from(h.keys()) };
  const pairs = new Map<number, number>();
  h.forEach((angle, i) => {
    const mirrored =
      h[0] === 90
        ? [angle, (540 - angle) % 360]
        : last === 90
          ? [angle, 180 - angle, 180 + angle, 360 - angle]
          : last === 180
            ? [angle, 360 - angle]
            : [angle];
    for (const a of mirrored) pairs.set(a % 360, i);
  });
  const sorted = [...pairs].sort(([a], [b]) => a - b);
  // from 90 to 270 without a plane at 180 the mirror has none at 0, where the circle is closed
  if (sorted[0][0] !== 0) {
    const after = h.findIndex((angle) => angle > 180);
    sorted.unshift([0, after - 1 + (180 - h[after - 1]) / (h[after] - h[after - 1])]);
  }
  sorted.push([360, sorted[0][1]]);
  return { angles_deg: sorted.map(([a]) => a), columns: sorted.map(([, i]) => i) };
}
