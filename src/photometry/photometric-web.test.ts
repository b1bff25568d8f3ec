import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readPhotometricFile } from "./lm63.ts";
import { photometricWeb, sendsForward, webFlux } from "./photometric-web.ts";

const lists = <T>(item: fc.Arbitrary<T>, length: number) =>
  fc.array(item, { minLength: length, maxLength: length });

/** Angles with these ends and up to five between, whole tenths of a degree. */
const between = (first: number, last: number) =>
  fc
    .uniqueArray(fc.integer({ min: 10 * first + 1, max: 10 * last - 1 }), { maxLength: 5 })
    .map((inner) => [first, ...inner.map((tenths) => tenths / 10).sort((a, b) => a - b), last]);

const table = fc
  .record({
    vertical: fc.oneof(between(0, 90), between(0, 180), between(90, 180)),
    horizontal: fc.oneof(
      fc.constant<number[]>([0]),
      between(0, 90),
      between(0, 180),
      between(0, 360),
      between(90, 270),
    ),
  })
  .chain(({ vertical, horizontal }) =>
    lists(lists(fc.integer({ min: 0, max: 5000 }), vertical.length), horizontal.length)
      .filter((planes) => planes.flat().some((cd) => cd > 0))
      .map((candela) => ({ vertical, horizontal, candela })),
  );

interface Table {
  readonly vertical: number[];
  readonly horizontal: number[];
  readonly candela: number[][];
}

function fileOf({ vertical, horizontal, candela }: Table) {
  const read = readPhotometricFile(
    [
      "IES:LM-63-2019",
      "TILT=NONE",
      `1 -1 1 ${vertical.length} ${horizontal.length} 1 2 0 0 0`,
      "1 1 0",
      vertical.join(" "),
      horizontal.join(" "),
      ...candela.map((plane) => plane.join(" ")),
    ].join("\n"),
  );
  if (!read.ok) throw new Error(`line ${read.fault.line}: ${read.fault.what}`);
  return read.file;
}

/** The plain way: fold the angle by the file's symmetry, then step through the file's own columns. */
function candelaAt({ vertical, horizontal, candela }: Table, v: number, h: number): number {
  const last = horizontal[horizontal.length - 1];
  let folded = h;
  if (horizontal.length === 1) folded = 0;
  else if (horizontal[0] === 90) folded = h > 270 ? 540 - h : h < 90 ? 180 - h : h;
  else {
    if (last <= 180 && folded > 180) folded = 360 - folded;
    if (last === 90 && folded > 90) folded = 180 - folded;
  }
  if (v < vertical[0] || v > vertical[vertical.length - 1]) return 0;
  const mix = (angles: number[], a: number, at: (i: number) => number) => {
    if (angles.length === 1) return at(0);
    let i = 0;
    while (i < angles.length - 2 && angles[i + 1] <= a) i++;
    const share = (a - angles[i]) / (angles[i + 1] - angles[i]);
    return (1 - share) * at(i) + share * at(i + 1);
  };
  return mix(horizontal, folded, (j) => mix(vertical, v, (i) => candela[j][i]));
}

/** Over `from` to `to` degrees from the axis, by 720 rings of 720 squares. */
function fluxByPlainSum(t: Table, from: number, to: number): number {
  const n = 720;
  let sum = 0;
  for (let i = 0; i < n; i++) {
    const v = from + ((i + 0.5) / n) * (to - from);
    let ring = 0;
    for (let j = 0; j < n; j++) ring += candelaAt(t, v, ((j + 0.5) / n) * 360);
    sum += ring * Math.sin((v * Math.PI) / 180);
  }
  return sum * ((2 * Math.PI) / n) * (((to - from) * Math.PI) / 180 / n);
}

describe("[PH12] the flux of a photometric file", () => {
  it("is that of a plain sum over all directions, and over those in front, for every symmetry (0.1 %)", () => {
    fc.assert(
      fc.property(table, (t) => {
        const file = fileOf(t);
        const all = webFlux(photometricWeb(file, false));
        const front = webFlux(photometricWeb(file, true));
        const peak = Math.max(...t.candela.flat());
        // steps of a quarter degree over kinks, and a first angle of 90 degrees within a step
        const slack = 1e-3 * all + 1e-3 * peak;
        expect(Math.abs(fluxByPlainSum(t, 0, 180) - all)).toBeLessThan(slack);
        expect(Math.abs(fluxByPlainSum(t, 0, 90) - front)).toBeLessThan(slack);
        expect(front > 0).toBe(sendsForward(file));
        expect(front).toBeLessThanOrEqual(all * (1 + 1e-12));
      }),
      { numRuns: 40, seed: 63 },
    );
  });

  it("keeps its digits at the finest angles that are read", () => {
    // a needle of 0.001 degrees: 2 pi (1 - sin d / d) = pi d^2 / 3
    const d = (0.001 * Math.PI) / 180;
    const needle = fileOf({ vertical: [0, 0.001, 90], horizontal: [0], candela: [[1000, 0, 0]] });
    const flux = webFlux(photometricWeb(needle, true));
    expect(flux / ((1000 * Math.PI * d * d) / 3)).toBeCloseTo(1, 5);
  });

  it("every file made so is closed round the circle", () => {
    fc.assert(
      fc.property(table, (t) => {
        fc.pre(t.horizontal[t.horizontal.length - 1] < 360);
        const web = photometricWeb(fileOf(t), false);
        const rows = web.vertical_rad.length;
        expect(web.candela.length).toBe(rows * web.horizontal_rad.length);
        if (web.horizontal_rad.length === 1) return;
        expect(web.horizontal_rad[0]).toBe(0);
        expect(web.horizontal_rad[web.horizontal_rad.length - 1]).toBe(2 * Math.PI);
        expect(web.candela.slice(-rows)).toEqual(web.candela.slice(0, rows));
      }),
      { seed: 63 },
    );
  });
});
