import { expect, it } from "vitest";
import type { Effect, Move } from "../finder/index.ts";
import { moveSentence, moveWords } from "./moves-words.ts";

const MOVE: Move = {
  key: "camera-left",
  cost: "camera",
  does: "camera 10° left",
  edit: { kind: "set", label: "camera round 10° to the left", fields: [] },
  after: null,
  why: null,
  nose: "stays",
  side: "left",
  row: 1,
};
const EFFECT: Effect = {
  pattern: "Loop",
  exposure: "same\u00a0f",
  lightUnchanged: true,
  others: ["square to broad", "background −0.1\u00a0stop"],
};

it("[MV11] a camera move says what the nose does, and that the light is unchanged only where it is", () => {
  expect(moveWords(MOVE, EFFECT)).toEqual({
    does: "camera 10° left",
    pattern: "Loop",
    change: "same\u00a0f",
    aside: "light on the face unchanged; square to broad",
    more: "background −0.1\u00a0stop",
  });
  expect(moveWords(MOVE, { ...EFFECT, lightUnchanged: false }).aside).toBe("head still; square to broad");
  const along = { ...MOVE, nose: "follows" as const };
  expect(moveWords(along, EFFECT).aside).toBe("nose follows; square to broad");
  expect(moveSentence(along, EFFECT)).toMatch(/: Loop, same.f; the nose follows the lens; square to broad;/);
  expect(moveSentence(MOVE, EFFECT)).toBe(
    "camera round 10° to the left: Loop, same\u00a0f; the head stays as it is, light on the face unchanged; " +
      "square to broad; background −0.1\u00a0stop",
  );
});

it("[MV8] a move that cannot be made says why, and one that is not worked out yet only what it does", () => {
  const blocked = { ...MOVE, edit: null, why: "the camera is pinned" };
  expect(moveWords(blocked, null)).toMatchObject({ pattern: null, change: "the camera is pinned" });
  expect(moveSentence(blocked, null)).toBe("camera 10° left: cannot be made, the camera is pinned");
  expect(moveWords({ ...MOVE, nose: null, does: "step back 20 cm" }, null)).toEqual({
    does: "step back 20\u00a0cm",
    pattern: null,
    change: "",
    aside: "",
    more: "",
  });
});
