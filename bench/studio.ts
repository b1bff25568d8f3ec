/** Scene S: a head with its body in a white room of 7 x 9 x 3.4 m, three lights, two panels. */
import { checkPlan, type Plan } from "../src/plan/index.ts";

export function studio(): Plan {
  const at = [3.5, 4.6, 1.55];
  const white = { floor: 0.8, ceiling: 0.8, near: 0.8, far: 0.8, left: 0.8, right: 0.8 };
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    title: "Scene S",
    room: { width: 7, depth: 9, height: 3.4, reflectance: white },
    lights: [
      {
        name: "key",
        position: [4.5, 3.6, 2.4],
        direction: { at },
        face: { shape: "polygon", sides: 8, width: 1.5 },
        output: { lumenSeconds: 1600 },
      },
      {
        name: "fill",
        position: [2, 3, 1.9],
        direction: { at },
        face: { shape: "rectangle", width: 0.6, height: 0.9 },
        output: { lumenSeconds: 500 },
      },
      {
        name: "hair",
        position: [2.6, 6.4, 2.7],
        direction: { at },
        face: { shape: "disc", width: 0.4 },
        beam: { exponent: 8 },
        output: { lumenSeconds: 300 },
      },
    ],
    panels: [
      {
        name: "V-flat",
        position: [2.6, 4.7, 1.2],
        direction: { bearing: 100, tilt: 0 },
        width: 1.2,
        height: 2.4,
        reflectance: 0.85,
      },
      {
        name: "flag",
        position: [3, 5.8, 2.1],
        direction: { bearing: 180, tilt: 0 },
        width: 0.6,
        height: 0.9,
        reflectance: 0.04,
      },
    ],
    people: [{ name: "sitter", position: [3.5, 4.6], stature: 1.72, facing: 180 }],
    // 4 x 5, so that a picture 480 wide is 600 high; the head with room round it
    camera: {
      position: [3.5, 1.9, 1.55],
      direction: { at },
      focalLength: 120,
      fNumber: 8,
      sensor: { width: 30, height: 24 },
    },
    meters: Array.from({ length: 12 }, (_, i) => ({
      name: `meter ${i + 1}`,
      position: [2.9 + 0.1 * i, 4.2, 1.2 + 0.05 * i],
      direction: { bearing: 180, tilt: 0 },
      receptor: i % 2 ? "flat" : "dome",
    })),
  });
  if (!checked.ok) throw new Error(checked.problems[0].what);
  return checked.plan;
}
