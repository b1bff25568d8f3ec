/** Random set-ups by the quick set and by the full transport. */
import { emitterArea } from "../src/engine/index.ts";
import type { Plan } from "../src/plan/index.ts";
import { readBridge } from "../src/reading/bridge.ts";
import { faceExposure, faceShares } from "../src/reading/face-light.ts";
import { Memory, QuickSet } from "../src/reading/index.ts";
import { lightUp } from "../src/reading/lighting.ts";
import { type PatternReading, readPattern } from "../src/reading/pattern.ts";
import { stage } from "../src/staging/index.ts";
import { type Place, randomSetUp } from "./quick-set-ups.ts";

/** A cheek six stops under what the lights bring to the bridge of the nose, or under the lit cheek, is black: deeper the
 * rule of the patterns looks at nothing either (docs/patterns.md), and no print shows it. So much is added to both sides
 * of a comparison. The bridge counts because under a light from behind both cheeks are as dark as that. */
const BLACK_STOPS = 6;

interface Truth extends PatternReading {
  readonly arriving: number;
}

/** By the full transport, as a fine reading has it. */
function traced(plan: Plan, memory: Memory): Truth {
  const lighting = lightUp(plan, "fine", memory);
  const shares = faceShares(lighting, 0);
  const { arriving } = readBridge(plan, lighting, 0);
  const marks = lighting.stage.people[0].shape.head.landmarks;
  return { ...readPattern(shares.samples, faceExposure(lighting, shares), marks, arriving), arriving };
}

function quickly(plan: Plan, set: QuickSet): PatternReading {
  const { scene, lights } = stage(plan);
  const sum = new Float64Array(set.rowLength);
  const row = new Float64Array(set.rowLength);
  let fronts = 0;
  for (const e of scene.emitters) fronts += emitterArea(e);
  scene.emitters.forEach((e, l) => {
    const { meterWeights, lumenSeconds } = lights[l];
    set.writeRow(e, set.front(e), row, meterWeights, fronts - emitterArea(e));
    for (let k = 0; k < row.length; k++) sum[k] += lumenSeconds * row[k];
  });
  return set.read(sum);
}

export function compare(place: Place, count: number, withinStops: number) {
  const memory = new Memory();
  const sets = new Map<string, QuickSet>();
  const apart: string[] = [];
  const other: string[] = [];
  for (let seed = 0; seed < count; seed++) {
    const plan = randomSetUp(seed, place);
    const key = JSON.stringify([plan.people, plan.room]);
    const set = sets.get(key) ?? new QuickSet(plan, 0);
    if (place === "dark") sets.set(key, set);
    const truth = traced(plan, memory);
    const quick = quickly(plan, set);
    const black = Math.max(truth.litCheek, truth.arriving) * 2 ** -BLACK_STOPS;
    const off = (a: number, b: number) => Math.log2((a + black) / (b + black));
    const [lit, shadow] = [off(quick.litCheek, truth.litCheek), off(quick.shadowCheek, truth.shadowCheek)];
    if (Math.max(Math.abs(lit), Math.abs(shadow)) > withinStops)
      apart.push(`${seed}: ${lit.toFixed(2)} ${shadow.toFixed(2)}`);
    if (quick.pattern !== truth.pattern) other.push(`${seed}: ${truth.pattern}, quick ${quick.pattern}`);
  }
  return { apart, other };
}
