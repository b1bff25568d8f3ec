/** What a wet eye mirrors, against the luminance that a spot meter reads of it and Fresnel's share by hand. */
import { describe, expect, it } from "vitest";
import { buildPerson } from "../figure/index.ts";
import { fresnelReflectance } from "../photometry/index.ts";
import { checkPlan, type Plan } from "../plan/index.ts";
import { Memory, readPlan, renderFrame } from "./index.ts";

const shape = buildPerson({ stature: 1.7, pose: "standing" });
const { leftEye } = shape.head;
/** Somebody on [0, 0] faces -y: own left is +x. */
const EYE = [leftEye.centre[1], -leftEye.centre[0] - 0.012, shape.earHeight + leftEye.centre[2]];
const BEFORE = [EYE[0], EYE[1] - 0.01, EYE[2]];
const AWAY = 0.5;
const FOCAL_LENGTH = 400;
const WIDTH = 160;
/** Across 24 mm of the sensor. */
const IRIS_PIXELS = (leftEye.irisRadius * WIDTH * FOCAL_LENGTH) / 24 / AWAY;
const BOARD = [EYE[0] + 0.25, EYE[1] - 0.7, EYE[2] + 0.15];

function plan(board: number): Plan {
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    // seen from the eye only as what it lights: it looks away from the face
    lights: [
      {
        name: "lamp",
        position: [BOARD[0], BOARD[1] + 0.45, BOARD[2] + 0.5],
        direction: { at: BOARD },
        face: { shape: "disc", width: 0.06 },
        beam: { exponent: 8 },
        output: { lumenSeconds: 400 },
      },
    ],
    panels: [
      { name: "board", position: BOARD, direction: { at: EYE }, width: 0.4, height: 0.4, reflectance: board },
    ],
    people: [{ name: "sitter", position: [0, 0], skin: { reflectance: 0.02 }, clothing: { reflectance: 0 } }],
    camera: {
      position: [EYE[0], EYE[1] - AWAY, EYE[2]],
      direction: { at: EYE },
      focalLength: FOCAL_LENGTH,
    },
    meters: [
      { name: "board", position: BEFORE, direction: { at: BOARD }, receptor: "spot" },
      { name: "eye", position: BEFORE, direction: { bearing: 180 } },
    ],
  });
  if (!checked.ok) throw new Error(checked.problems[0].what);
  return checked.plan;
}

describe("[RD14] the wet front of an eye", () => {
  it("[RD14] mirrors a lit board: Fresnel's share of the luminance that a spot meter reads there (10 %)", () => {
    const white = plan(0.8);
    const reading = readPlan(white, "fine", new Memory());
    const [board, onEye] = reading.meters;
    const frame = renderFrame(white, { width: WIDTH, quality: "fine" }, new Memory());
    const dull = renderFrame(plan(0.001), { width: WIDTH, quality: "fine" }, new Memory());
    const seen = reading.people[0].face.catchlights.find((c) => c.eye === "left" && c.light === "board");
    expect(seen?.visible).toBe(true);
    // the middle of the reflection, in iris radii from the middle of the picture, where the eye is
    const outline = seen?.outline ?? [];
    const middle = [0, 1].map((k) => outline.reduce((sum, p) => sum + p[k], 0) / outline.length);
    const x = Math.floor(frame.width / 2 + middle[0] * IRIS_PIXELS);
    const y = Math.floor(frame.height / 2 - middle[1] * IRIS_PIXELS);
    const at = 3 * (y * frame.width + x);
    const gained = frame.luminance[at] - dull.luminance[at];
    // half the angle between the ways from the eye to lens and to board
    const toBoard = BOARD.map((c, k) => c - EYE[k]);
    const cosine = -toBoard[1] / Math.hypot(toBoard[0], toBoard[1], toBoard[2]);
    const share = fresnelReflectance(Math.acos(cosine) / 2, 1.376);
    // and the iris, 0.07, sends back some of what the board sends to it
    const byHand = (share * board.luxSeconds + 0.07 * onEye.byLight.lamp.bounced) / Math.PI;
    expect(Math.abs(gained / byHand - 1)).toBeLessThan(0.1);
  });

  it("[RD14] a board that is black adds nothing to see", () => {
    const none = plan(0.001);
    const frame = renderFrame(none, { width: WIDTH, quality: "fine" }, new Memory());
    const luminance = readPlan(plan(0.8), "fine", new Memory()).meters[0].luxSeconds / Math.PI;
    const brightest = frame.luminance.reduce((a, b) => Math.max(a, b), 0);
    expect(brightest).toBeLessThan(0.02 * luminance);
  });
});
