/** The small plans that the two pages explain with: one sitter, one light, dark walls that send nothing back. */
import { type Edit, type Plan, parsePlan, type Vec3 } from "../plan/index.ts";
import { stagePerson } from "../staging/index.ts";
import { bridgeOf } from "./layer-height.ts";

export type Topic = "direction" | "power";

const SITTER = { name: "sitter", position: [2, 2.9], stature: 1.7, facing: 180, hair: { length: "short" } };
/** The bridge of that sitter's nose, to the centimetre: what the light is aimed at. */
const FACE = [2, 2.79, 1.59];
const SET = {
  format: "tapemark/plan",
  version: 1,
  people: [SITTER],
  camera: {
    position: [2, 0.6, 1.6],
    direction: { at: [2, 2.9, 1.56] },
    focalLength: 180,
    fNumber: 8,
  },
};
const light = (position: number[], width: number, lumenSeconds: number) => ({
  name: "light",
  position,
  direction: { at: FACE },
  face: { shape: "disc", width },
  output: { lumenSeconds },
});

/** Direction: 34° round to own left, 35° up, 1.2 m away. Power: straight ahead, 50° up, so that it does not come between
 * lens and face, 1.2 m away, with a front wide enough that the inverse square fails when it comes near. */
const LIGHTS: Readonly<Record<Topic, object>> = {
  direction: light([2.56, 1.98, 2.28], 0.45, 1000),
  power: light([2, 2.02, 2.515], 0.9, 840),
};

/** High enough to carry the light two stops away. */
const HEIGHTS: Readonly<Record<Topic, number>> = { direction: 3.2, power: 4 };

export function lessonText(topic: Topic): string {
  const room = { width: 4, depth: 4.4, height: HEIGHTS[topic], bounce: false };
  const title = topic === "direction" ? "Direction" : "Power";
  return JSON.stringify({ ...SET, room, title, lights: [LIGHTS[topic]] });
}

export function lessonPlan(topic: Topic): Plan {
  const parsed = parsePlan(lessonText(topic));
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  return parsed.plan;
}

/** Where the light stands as seen from the face. */
export interface LightPlace {
  readonly away_m: number;
  /** its front's width in that distance */
  readonly widths: number;
}

export function lightPlace(plan: Plan): LightPlace | null {
  const [light] = plan.lights;
  const bridge = bridgeOf(plan, 0);
  if (light === undefined || bridge === null) return null;
  const away_m = Math.hypot(...bridge.map((v, k) => (light.position[k] as number) - v));
  const width = "width" in light.face ? light.face.width : 0;
  return { away_m, widths: width > 0 ? away_m / width : Number.POSITIVE_INFINITY };
}

/** The light carried: nearer or farther along its line by a factor, round the head and up by degrees. Aimed at the face
 * as before. Millimetres, so that a step back is where it was. */
export function carry(
  plan: Plan,
  label: string,
  by: { away?: number; round?: number; up?: number },
): Edit | null {
  const [who] = plan.people;
  const [light] = plan.lights;
  const bridge = bridgeOf(plan, 0);
  if (who === undefined || light === undefined || bridge === null) return null;
  const { headRotation: r } = stagePerson(who, plan);
  const d = bridge.map((v, k) => (light.position[k] as number) - v) as Vec3;
  const inHead = [0, 1, 2].map((c) => d.reduce((sum, v, k) => sum + (r[3 * k + c] as number) * v, 0)) as Vec3;
  const away = Math.hypot(...inHead) * (by.away ?? 1);
  const level = Math.hypot(inHead[0], inHead[1]);
  const round = Math.atan2(inHead[1], inHead[0]) + radians(by.round ?? 0);
  const up = Math.min(
    radians(85),
    Math.max(radians(-60), Math.atan2(inHead[2], level) + radians(by.up ?? 0)),
  );
  const way = [Math.cos(up) * Math.cos(round), Math.cos(up) * Math.sin(round), Math.sin(up)];
  const position = bridge.map(
    (v, k) =>
      Math.round(1000 * (v + away * way.reduce((sum, w, c) => sum + (r[3 * k + c] as number) * w, 0))) / 1000,
  );
  return {
    kind: "set",
    label,
    fields: [
      { path: ["lights", 0, "position"], value: position },
      { path: ["lights", 0, "direction"], value: { at: bridge.map((v) => Math.round(1000 * v) / 1000) } },
    ],
  };
}

const radians = (degrees: number) => (degrees * Math.PI) / 180;
