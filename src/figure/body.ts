/** Neck to floor: a plain clothed body that blocks and returns light as a person does. Body axes: x ahead,
 * y own left, z up from the floor. Widths from ANSUR II means (bideltoid 480, biacromial 390 mm). */
import { joinMeshes, withNormals } from "./solids.ts";
import { MATERIAL, type Mesh } from "./types.ts";

/** Rings: height below the ears (m at a stature of 1.70 m), half-width, half-depth, how far ahead its middle is. */
const TORSO = [
  [0.13, 0.061, 0.062, -0.028],
  [0.16, 0.07, 0.07, -0.028],
  [0.19, 0.104, 0.078, -0.028],
  [0.212, 0.148, 0.086, -0.024],
  [0.24, 0.19, 0.094, -0.02],
  [0.275, 0.216, 0.102, -0.012],
  [0.32, 0.23, 0.11, -0.004],
  [0.4, 0.236, 0.122, 0.006],
  [0.5, 0.228, 0.122, 0.01],
  [0.62, 0.208, 0.114, 0.01],
  [0.78, 0.2, 0.12, 0.002],
] as const;
const AROUND = 40;
const REFERENCE_STATURE = 1.7;

/** Standing: the torso runs on to the floor. Seated: it ends on the seat, and a lap and shins stand before it. */
export function buildBody(earHeight: number, stature: number, seat: number | null): Mesh {
  const k = stature / REFERENCE_STATURE;
  const foot = seat ?? 0;
  const rings: number[][] = TORSO.map(([below, w, d, ahead]) => [
    earHeight - below * k,
    w * k,
    d * k,
    ahead * k,
  ]).filter(([z]) => z > foot + 0.02);
  const hips = rings[rings.length - 1][0];
  if (seat === null) {
    for (const share of [0.8, 0.55, 0.3, 0.1, 0]) rings.push([share * hips, 0.19 * k, 0.125 * k, 0]);
  } else rings.push([seat, 0.2 * k, 0.13 * k, 0]);
  const parts = [
    loft(smoothed(rings).map(([z, w, d, x]) => ({ centre: [x, 0, z], across: [0, w, 0], other: [d, 0, 0] }))),
  ];
  if (seat !== null) {
    const lap = 0.24 * k;
    for (const side of [1, -1]) {
      const y = side * 0.1 * k;
      parts.push(
        loft(
          [0, 0.25, 0.5].map((x) => ({
            centre: [x * k, y, seat + 0.07 * k],
            across: [0, 0.085 * k, 0],
            other: [0, 0, 0.08 * k],
          })),
        ),
        loft(
          [seat + 0.06 * k, seat / 2, 0].map((z) => ({
            centre: [0.46 * k + lap * 0.1, y, z],
            across: [0, 0.06 * k, 0],
            other: [0.06 * k, 0, 0],
          })),
        ),
      );
    }
  }
  // the neck's own foot stays when the head turns, so that no gap opens at the collar
  const neck = loft(
    [0.2, 0.14, 0.085].map((below) => ({
      centre: [-0.028 * k, 0, earHeight - below * k],
      across: [0, 0.05 * k, 0],
      other: [0.051 * k, 0, 0],
    })),
  );
  return joinMeshes([...parts.map((p) => clothed(p, MATERIAL.clothing)), clothed(neck, MATERIAL.skin)]);
}

function clothed(part: { positions: number[]; triangles: number[] }, material: number): Mesh {
  return withNormals(
    part.positions,
    part.triangles,
    new Uint8Array(part.triangles.length / 3).fill(material),
  );
}

/** Rings between the rings on a Catmull-Rom curve, so that shoulders are round. */
function smoothed(rings: readonly number[][]): number[][] {
  const out: number[][] = [];
  for (let i = 0; i + 1 < rings.length; i++) {
    const [a, b, c, d] = [-1, 0, 1, 2].map((k) => rings[Math.max(0, Math.min(rings.length - 1, i + k))]);
    for (let step = 0; step < BETWEEN; step++) {
      const t = step / BETWEEN;
      out.push(
        b.map(
          (_, k) =>
            b[k] +
            0.5 *
              t *
              (c[k] -
                a[k] +
                t * (2 * a[k] - 5 * b[k] + 4 * c[k] - d[k] + t * (3 * (b[k] - c[k]) + d[k] - a[k]))),
        ),
      );
    }
  }
  out.push(rings[rings.length - 1]);
  return out;
}

const BETWEEN = 3;

interface Ring {
  centre: number[];
  across: number[];
  other: number[];
}

/** A closed tube through rounded rings, with a lid at either end. */
function loft(rings: readonly Ring[]): { positions: number[]; triangles: number[] } {
  const positions: number[] = [];
  const triangles: number[] = [];
  for (const r of rings) {
    for (let i = 0; i < AROUND; i++) {
      const a = (2 * Math.PI * i) / AROUND;
      const c = rounded(Math.cos(a));
      const s = rounded(Math.sin(a));
      for (let k = 0; k < 3; k++) positions.push(r.centre[k] + c * r.other[k] + s * r.across[k]);
    }
  }
  const turn = handedness(rings);
  const add = (a: number, b: number, c: number) => triangles.push(...(turn ? [a, b, c] : [a, c, b]));
  for (let j = 0; j + 1 < rings.length; j++) {
    for (let i = 0; i < AROUND; i++) {
      const a = j * AROUND + i;
      const b = j * AROUND + ((i + 1) % AROUND);
      add(a, a + AROUND, b);
      add(b, a + AROUND, b + AROUND);
    }
  }
  for (const [ring, first] of [
    [0, true],
    [rings.length - 1, false],
  ] as const) {
    const middle = positions.length / 3;
    positions.push(...rings[ring].centre);
    for (let i = 0; i < AROUND; i++) {
      const a = ring * AROUND + i;
      const b = ring * AROUND + ((i + 1) % AROUND);
      if (first) add(middle, a, b);
      else add(middle, b, a);
    }
  }
  return { positions, triangles };
}

/** Between an ellipse and a rounded box. */
function rounded(x: number): number {
  return Math.sign(x) * Math.abs(x) ** 0.9;
}

/** Whether (other, across, along the tube) is left-handed, which turns the triangles' order. */
function handedness(rings: readonly Ring[]): boolean {
  const { across: a, other: o } = rings[0];
  const d = [0, 1, 2].map((k) => rings[1].centre[k] - rings[0].centre[k]);
  const n = [o[1] * a[2] - o[2] * a[1], o[2] * a[0] - o[0] * a[2], o[0] * a[1] - o[1] * a[0]];
  return n[0] * d[0] + n[1] * d[1] + n[2] * d[2] < 0;
}
