import { describe, expect, it } from "vitest";
import { AS_IT_IS, fromCrop, halvesOf, type Square, writeCrop } from "./find-crop.ts";
import type { LinearPicture } from "./types.ts";

/** Linear light that a tone of sRGB stands for. */
const decoded = (code: number) => (code <= 0.04045 ? code / 12.92 : ((code + 0.055) / 1.055) ** 2.4);

/** Light that grows evenly: red to the right, green down. */
function ramp(width: number, height: number): LinearPicture {
  const rgb = new Float32Array(3 * width * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      rgb[3 * (y * width + x)] = (x + 0.5) / width;
      rgb[3 * (y * width + x) + 1] = (y + 0.5) / height;
      rgb[3 * (y * width + x) + 2] = 0.5;
    }
  return { width, height, rgb };
}

const SIDE = 24;

function cut(picture: LinearPicture, square: Square, gamma = 1): Float32Array {
  const out = new Float32Array(3 * SIDE * SIDE);
  writeCrop(out, 0, halvesOf(picture), square, SIDE, { ...AS_IT_IS, gamma });
  return out;
}

describe("[LM1] what a network is shown lies where it is said to lie", () => {
  const picture = ramp(400, 300);
  for (const [name, square] of [
    ["enlarged", { x: 200, y: 150, side: 15, turn: 0 }],
    ["reduced nine times", { x: 190, y: 160, side: 216, turn: 0 }],
    ["turned", { x: 200, y: 150, side: 100, turn: 0.6 }],
    ["mirrored and turned", { x: 180, y: 140, side: 120, turn: -0.3, isMirrored: true }],
  ] as const)
    it(name, () => {
      const out = cut(picture, square);
      for (const [column, row] of [
        [3, 4],
        [12, 12],
        [20, 7],
      ]) {
        const [x, y] = fromCrop(square, SIDE, column + 0.5, row + 0.5);
        const at = 3 * (row * SIDE + column);
        // a ramp's mean is its middle: what is left is single precision
        expect(decoded(out[at])).toBeCloseTo(x / 400, 4);
        expect(decoded(out[at + 1])).toBeCloseTo(y / 300, 4);
      }
    });
  it("beside the picture it is middle grey", () => {
    const out = cut(picture, { x: -500, y: 100, side: 50, turn: 0 });
    expect([...new Set(out)]).toEqual([0.5]);
  });
});

describe("[LM2] shadows are lifted", () => {
  it("by a power of the code, black and white staying", () => {
    const picture = ramp(400, 300);
    const square = { x: 200, y: 150, side: 100, turn: 0 };
    const [plain, lifted] = [cut(picture, square), cut(picture, square, 0.4)];
    for (let i = 0; i < plain.length; i += 97) expect(lifted[i]).toBeCloseTo(plain[i] ** 0.4, 5);
  });
});
