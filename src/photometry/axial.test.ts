import { describe, expect, it } from "vitest";
import { QuantityError } from "../units/index.ts";
import { axialExposure, edgeDropMean, type FaceShape, lobedDiscFactor } from "./index.ts";

type Receptor = "flat" | "dome";

/** The same by a plain sum over small squares of the front, each with its own distance, lobe and edge. */
function byPlainSum(face: FaceShape, m: number, drop: number, d: number, receptor: Receptor, cells: number) {
  const radiusShare = rimShare(face);
  const reach =
    face.shape === "rectangle" ? [face.width / 2, face.height / 2] : [outermost(face), outermost(face)];
  let light = 0;
  let energy = 0;
  for (let i = 0; i < cells; i++) {
    for (let j = 0; j < cells; j++) {
      const x = reach[0] * ((2 * i + 1) / cells - 1);
      const y = reach[1] * ((2 * j + 1) / cells - 1);
      const share = radiusShare(x, y);
      if (share > 1) continue;
      const q = 2 ** (-drop * share * share);
      const d2 = x * x + y * y + d * d;
      const c = d / Math.sqrt(d2);
      energy += q;
      light += (q * (m + 1) * c ** m * (receptor === "flat" ? c : (1 + c) / 2)) / (2 * Math.PI * d2);
    }
  }
  return light / energy;
}

function outermost(face: FaceShape): number {
  if (face.shape === "polygon") return face.width / 2 / Math.cos(Math.PI / face.sides);
  return face.shape === "disc" ? face.width / 2 : 0;
}

/** r/R of the plan format: distance from the centre over that of the rim along the same ray. */
function rimShare(face: FaceShape): (x: number, y: number) => number {
  if (face.shape === "rectangle")
    return (x, y) => Math.max(Math.abs(x) / (face.width / 2), Math.abs(y) / (face.height / 2));
  if (face.shape === "polygon") {
    const step = (2 * Math.PI) / face.sides;
    return (x, y) => {
      // one side is on top: its middle lies straight up
      const angle = Math.atan2(x, y);
      const fromMiddle = angle - step * Math.round(angle / step);
      return (Math.hypot(x, y) * Math.cos(fromMiddle)) / (face.width / 2);
    };
  }
  return (x, y) => (face.shape === "disc" ? Math.hypot(x, y) / (face.width / 2) : 0);
}

const FACES: [string, FaceShape][] = [
  ["disc", { shape: "disc", width: 1.5 }],
  ["square", { shape: "rectangle", width: 1, height: 1 }],
  ["strip", { shape: "rectangle", width: 0.3, height: 1.8 }],
  ["octagon", { shape: "polygon", width: 1.2, sides: 8 }],
  ["triangle", { shape: "polygon", width: 0.8, sides: 3 }],
];

describe("[PH5] exposure on the axis of a front", () => {
  for (const [name, face] of FACES) {
    for (const [m, drop, d] of [
      [1, 0, 2],
      [1, 1.5, 0.7],
      [8, 0.5, 1],
      [60, 3, 0.4],
    ]) {
      for (const receptor of ["flat", "dome"] as const) {
        it(`${name}, cos^${m}, edge ${drop}, ${d} m, ${receptor}: a plain sum agrees (0.1 %)`, () => {
          // five hundred squares across leave up to 0.05 % at a rim that runs slantwise through them
          const plain = byPlainSum(face, m, drop, d, receptor, 500);
          expect(axialExposure(face, m, drop, d, receptor) / plain).toBeCloseTo(1, 3);
        });
      }
    }
  }

  it("a lobed disc is its closed form from a hundredth of its size to a thousand times it (1e-9)", () => {
    for (const m of [1, 1.5, 2, 16, 60]) {
      for (const d of [0.01, 0.1, 1, 10, 1000]) {
        // E / (pi L0) with pi L0 = (m + 1) / (2 A)
        const exact = (lobedDiscFactor(0.5, d, m) * (m + 1)) / (2 * Math.PI * 0.25);
        // the closed form's own difference loses digits far away
        const digits = d > 100 ? 6 : 9;
        expect(axialExposure({ shape: "disc", width: 1 }, m, 0, d, "flat") / exact).toBeCloseTo(1, digits);
      }
    }
  });

  it("a square's lobe of 1 is the closed form of four corner rectangles (1e-9)", () => {
    // E / (pi L) of 1 x 1 at 1, published 0.239456; pi L = 1 / A
    const square: FaceShape = { shape: "rectangle", width: 1, height: 1 };
    expect(axialExposure(square, 1, 0, 1, "flat")).toBeCloseTo(0.239456, 6);
  });

  it("long thin fronts near by do not lose their ends: 4 cm x 4 m cut into squares agrees (1e-6)", () => {
    const strip: FaceShape = { shape: "rectangle", width: 0.04, height: 4 };
    for (const d of [0.02, 0.5, 3]) {
      // closed form of the strip for a perfect diffuser, facing
      const [a, b] = [0.02 / d, 2 / d];
      const [p, q] = [Math.hypot(1, a), Math.hypot(1, b)];
      const factor = (4 * ((a / p) * Math.atan(b / p) + (b / q) * Math.atan(a / q))) / (2 * Math.PI);
      expect((axialExposure(strip, 1, 0, d, "flat") * 0.16) / factor).toBeCloseTo(1, 6);
    }
  });

  it("more points change nothing to 1e-6, a steep edge near by included", () => {
    for (const drop of [1, 5, 10]) {
      for (const d of [0.02, 0.3, 5]) {
        for (const receptor of ["flat", "dome"] as const) {
          const exact = discByFineSum(0.5, drop, d, receptor);
          const ours = axialExposure({ shape: "disc", width: 1 }, 1, drop, d, receptor);
          expect(ours / exact).toBeCloseTo(1, 6);
        }
      }
    }
  });

  it("far away every front is a point, and a point knows no receptor", () => {
    const point = axialExposure({ shape: "point" }, 4, 0, 500, "flat");
    expect(point).toBe(axialExposure({ shape: "point" }, 4, 0, 500, "dome"));
    for (const [, face] of FACES) {
      expect(axialExposure(face, 4, 2, 500, "dome") / point).toBeCloseTo(1, 5);
    }
  });

  it.each([0, -1, Number.NaN])("a distance or a size of %f is refused", (bad) => {
    expect(() => axialExposure({ shape: "disc", width: 1 }, 1, 0, bad, "flat")).toThrow(QuantityError);
    expect(() => axialExposure({ shape: "disc", width: bad }, 1, 0, 1, "flat")).toThrow(QuantityError);
    expect(() => axialExposure({ shape: "rectangle", width: 1, height: bad }, 1, 0, 1, "flat")).toThrow(
      QuantityError,
    );
  });
});

/** A perfect diffuser with an edge, two million rings even in log(1 + (r / d)^2). */
function discByFineSum(radius: number, drop: number, d: number, receptor: Receptor): number {
  const end = Math.log1p((radius / d) ** 2);
  const rings = 400_000;
  let light = 0;
  let energy = 0;
  for (let i = 0; i < rings; i++) {
    const g = Math.exp((end * (i + 0.5)) / rings);
    const r2 = d * d * (g - 1);
    const area = Math.PI * d * d * g * (end / rings);
    const q = 2 ** ((-drop * r2) / radius ** 2) * area;
    const c = 1 / Math.sqrt(g);
    energy += q;
    light += (q * c * (receptor === "flat" ? c : (1 + c) / 2)) / (Math.PI * d * d * g);
  }
  return light / energy;
}

describe("[PH6] the mean of a front's edge drop", () => {
  it("is 1 without one, and goes there smoothly", () => {
    expect(edgeDropMean(0)).toBe(1);
    expect(edgeDropMean(1e-12)).toBeCloseTo(1, 11);
  });
  it("is the mean over a disc by a plain sum", () => {
    for (const e of [0.3, 1, 10]) {
      let sum = 0;
      for (let i = 0; i < 10000; i++) sum += 2 ** (-e * ((i + 0.5) / 10000)) / 10000;
      expect(edgeDropMean(e)).toBeCloseTo(sum, 6);
    }
  });
});
