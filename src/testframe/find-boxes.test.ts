import { describe, expect, it } from "vitest";
import { isSameFace, oneEach, readBoxes } from "./find-boxes.ts";
import { FACE_ROW, NET_SIDE } from "./find-nets.ts";

const ROWS = 16 * 16 * 2 + 8 * 8 * 6;
const WHOLE = { x: NET_SIDE.faces / 2, y: NET_SIDE.faces / 2, side: NET_SIDE.faces, turn: 0 };

function rowsWith(entries: readonly (readonly [number, readonly number[]])[]): Float32Array {
  const rows = new Float32Array(ROWS * FACE_ROW);
  for (let row = 0; row < ROWS; row++) rows[row * FACE_ROW] = -20;
  for (const [row, values] of entries) rows.set(values, row * FACE_ROW);
  return rows;
}

describe("[LM3] a row of the detecting network is a place in the picture", () => {
  it("on the fine grid, two rows a middle, 16 pixels apart", () => {
    // the second row of the third middle in the second line: anchor (40, 24)
    const row = 2 * (16 + 2) + 1;
    const [box] = readBoxes(rowsWith([[row, [3, 5, -4, 60, 50, -10, 0, 10, 0]]]), WHOLE, 0.5);
    expect(box.square.x).toBeCloseTo(45, 9);
    expect(box.square.y).toBeCloseTo(20, 9);
    expect(box.square.side).toBeCloseTo(90, 9);
    expect(box.square.turn).toBeCloseTo(0, 9);
    expect(box.score).toBeCloseTo(1 / (1 + Math.exp(-3)), 6);
  });
  it("on the coarse grid, six rows a middle, 32 pixels apart; scaled and turned with what was looked at", () => {
    const row = 512 + 6 * 9 + 4;
    const looked = { x: 300, y: 200, side: 512, turn: 0 };
    // anchor (48, 48); the left eye 10 lower than the right one
    const [box] = readBoxes(rowsWith([[row, [9, 0, 0, 40, 40, -5, 0, 5, 10]]]), looked, 0.5);
    expect(box.square.x).toBeCloseTo(300 + 2 * (48 - 128), 6);
    expect(box.square.y).toBeCloseTo(200 + 2 * (48 - 128), 6);
    expect(box.square.side).toBeCloseTo(120, 6);
    expect(box.square.turn).toBeCloseTo(Math.PI / 4, 6);
  });
});

describe("[LM4] several boxes on one face are one", () => {
  const at = (x: number, score: number, side = 100) => ({ square: { x, y: 0, side, turn: 0 }, score });
  it("the best of them; faces beside each other stay two", () => {
    const kept = oneEach([at(0, 0.6), at(10, 0.9), at(60, 0.7), at(5, 0.5, 160)]);
    expect(kept.map((box) => box.score)).toEqual([0.9, 0.7]);
  });
  it("whichever is asked first", () => {
    const [a, b] = [at(0, 1, 40), at(20, 1, 100)];
    expect(isSameFace(a, b)).toBe(isSameFace(b, a));
  });
});
