/** What may be off on set, as small steps of the plan: what each would do is read off it, how much of it is fitted. */
import { lengthOf, subtract } from "../math/index.ts";
import {
  aimCarriedRound,
  carriedRound,
  type Light,
  type Plan,
  scaledOutput,
  type Vec3,
} from "../plan/index.ts";
import { stagePerson } from "../staging/index.ts";
import { spillSteps } from "./causes-room.ts";
import { centimetres, stopsWords } from "./compare-words.ts";
import type { LikelyCause } from "./types.ts";

export interface Step {
  readonly cause: LikelyCause["cause"];
  /** the plan with the step taken once */
  readonly plan: Plan;
  /** it is so or is not: a light that did not fire */
  readonly isWhole: boolean;
  /** how many such steps are usual, the fewest and the most that happen */
  readonly usual: number;
  readonly least: number;
  readonly most: number;
  /** how much rarer than a dial that is off, in squared standard deviations */
  readonly unlikely: number;
  /** `amount` steps of it */
  readonly words: (amount: number) => Pick<LikelyCause, "why" | "check" | "cure">;
}

/** How far things are usually off on set: common practice, no source. */
const USUAL = { powerStops: 0.5, distanceShare: 0.1, roundDegrees: 8, ambientStops: 1 };
const STEP = { powerStops: 0.5, distanceShare: 0.1, degrees: 8 };

export function stepsOf(plan: Plan, person: number): Step[] {
  const [x, y, z] = stagePerson(plan.people[person], plan).headOffset;
  const head: Vec3 = [x, y, z];
  const lights = plan.lights.flatMap((light, i) => (light.on ? lightSteps(plan, i, light, head) : []));
  return [...lights, ambientStep(plan), ...spillSteps(plan, person)];
}

function lightSteps(plan: Plan, index: number, light: Light, head: Vec3): Step[] {
  const withLight = (change: Partial<Light>): Plan => ({
    ...plan,
    lights: plan.lights.map((each, i) => (i === index ? { ...each, ...change } : each)),
  });
  const away = subtract(light.position, head);
  const distance = lengthOf(away);
  const at = (factor: number): Vec3 => [
    head[0] + factor * away[0],
    head[1] + factor * away[1],
    head[2] + factor * away[2],
  ];
  const name = light.name;
  return [
    {
      cause: "power",
      plan: withLight({ output: scaledOutput(light.output, 2 ** STEP.powerStops) }),
      isWhole: false,
      ...often(USUAL.powerStops / STEP.powerStops, 6),
      unlikely: 0,
      words: (n) => ({
        why: `${name} gives about ${stopsWords(n * STEP.powerStops)} ${n > 0 ? "more" : "less"} than planned`,
        check: `meter ${name} alone at the chin`,
        cure: `${name} ${n > 0 ? "down" : "up"} ${stopsWords(n * STEP.powerStops)} on its dial`,
      }),
    },
    {
      cause: "distance",
      plan: withLight({ position: at(1 + STEP.distanceShare) }),
      isWhole: false,
      ...often(USUAL.distanceShare / STEP.distanceShare, 5, -4),
      unlikely: 1,
      words: (n) => ({
        why: `${name} stands about ${centimetres(n * STEP.distanceShare * distance)} ${n > 0 ? "farther" : "nearer"} than planned`,
        check: `tape from the head to the middle of its front: ${distance.toFixed(2)} m planned`,
        cure: `${name} ${n > 0 ? "nearer" : "back"} ${centimetres(n * STEP.distanceShare * distance)}, same aim`,
      }),
    },
    {
      cause: "angle",
      plan: withLight({
        position: carriedRound(light.position, head, -STEP.degrees),
        direction: aimCarriedRound(light.direction, head, -STEP.degrees),
      }),
      isWhole: false,
      ...often(USUAL.roundDegrees / STEP.degrees, 6),
      unlikely: 1,
      words: (n) => {
        const arc = centimetres(n * STEP.degrees * (Math.PI / 180) * Math.hypot(away[0], away[1]));
        const [from, to] = n > 0 ? ["counterclockwise", "clockwise"] : ["clockwise", "counterclockwise"];
        return {
          why: `${name} stands about ${Math.abs(Math.round(n * STEP.degrees))}° round the sitter, ${from} from above`,
          check: "tape its stand from two walls, as the sheet says",
          cure: `walk ${name} ${arc} ${to} round the sitter, same distance`,
        };
      },
    },
    {
      cause: "angle",
      plan: withLight({
        position: [
          light.position[0],
          light.position[1],
          light.position[2] + distance * Math.tan((STEP.degrees * Math.PI) / 180),
        ],
      }),
      isWhole: false,
      ...often(USUAL.roundDegrees / STEP.degrees, 4),
      unlikely: 1,
      words: (n) => {
        const rise = centimetres(n * distance * Math.tan((STEP.degrees * Math.PI) / 180));
        return {
          why: `${name} is about ${rise} ${n > 0 ? "higher" : "lower"} than planned`,
          check: `tape from the floor to the middle of its front: ${light.position[2].toFixed(2)} m planned`,
          cure: `${name} ${n > 0 ? "down" : "up"} ${rise}, same aim`,
        };
      },
    },
    {
      cause: "misfire",
      plan: withLight({ on: false }),
      isWhole: true,
      usual: 1,
      least: 1,
      most: 1,
      unlikely: 2,
      words: () => ({
        why: `${name} did not fire`,
        check: `watch ${name} while it is fired by hand`,
        cure: `wait until it is charged; check its receiver, then take the frame again`,
      }),
    },
  ];
}

function often(usual: number, most: number, least = -most): Pick<Step, "usual" | "least" | "most"> {
  return { usual, least, most };
}

/** Room lamps and daylight: even light that the plan does not have, as much as a tenth of what an ordinary face gets. */
function ambientStep(plan: Plan): Step {
  const lux = 2 / plan.camera.shutter;
  return {
    cause: "ambient",
    plan: { ...plan, ambient: { ...plan.ambient, lux: plan.ambient.lux + lux } },
    isWhole: false,
    usual: 3,
    least: 0,
    most: 500,
    unlikely: 1,
    words: (n) => ({
      why: `light of the room itself adds about ${Math.round(n * lux)} lux from all round`,
      check: "a frame with every flash switched off: it should be black",
      cure: "lamps off and curtains shut, or a shorter shutter within the sync speed",
    }),
  };
}
