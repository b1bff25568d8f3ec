/** Everything that is read off one face. */
import type { Plan } from "../plan/index.ts";
import { readBridge } from "./bridge.ts";
import { viewfinder } from "./camera-rays.ts";
import { readCatchlights } from "./catchlights.ts";
import { ratioUncertaintyStops, uncertaintyStops } from "./certainty.ts";
import { cheekShares } from "./cheek-shares.ts";
import { faceExposure, faceShares } from "./face-light.ts";
import { readGlasses } from "./glasses.ts";
import { type Lighting, lightUp } from "./lighting.ts";
import { nearestOf, readMargins } from "./margins.ts";
import type { Memory } from "./memory.ts";
import { noseShadow } from "./nose-shadow.ts";
import { readPattern } from "./pattern.ts";
import { shadowEdgeMillimetres } from "./shadow-edge.ts";
import { FaceTrial } from "./trial.ts";
import type { FaceReading, Margin, Pattern, Spread } from "./types.ts";

/** A nose within this of the lens is square to it (plan format). */
const SQUARE_DEGREES = 10;

/** `isStudied`: the ways to other patterns and the edge of the shadow are looked for as well, where the light is fine. */
export function readFace(lighting: Lighting, person: number, isStudied = true): FaceReading {
  const { stage } = lighting;
  const staged = stage.people[person];
  const shares = faceShares(lighting, person);
  const exposure = faceExposure(lighting, shares);
  const bridge = readBridge(stage.plan, lighting, person);
  const found = readPattern(shares.samples, exposure, staged.shape.head.landmarks, bridge.arriving);
  const main = strongestLight(lighting, shares.direct);
  const litSign = found.litSide === "right" ? -1 : 1;
  const fine = lighting.quality === "fine" && isStudied;
  // a border is searched for only when the plan stands still
  const margins: Margin[] = fine
    ? readMargins(
        new FaceTrial(lighting, person, main, shares, bridge.arriving),
        found.pattern,
        stage.lights[main]?.name ?? null,
      )
    : [];
  const cheeks = cheekShares(lighting, shares, staged.shape.head.landmarks);
  const [lit, shadow] = litSign > 0 ? [cheeks.left, cheeks.right] : [cheeks.right, cheeks.left];
  return {
    ...found,
    litCheekUncertaintyStops: found.litCheek < DARK ? null : uncertaintyStops(stage.plan, lit),
    ratioUncertaintyStops: found.ratioStops === null ? null : ratioUncertaintyStops(stage.plan, lit, shadow),
    ratio: ratioOf(found.litCheek, found.shadowCheek),
    side: sideSeen(lighting, person, found.litSide),
    light: { azimuth: bridge.azimuth, elevation: bridge.elevation },
    vectorScalarRatio: bridge.vectorScalarRatio,
    spread: spreadOf(bridge.vectorScalarRatio),
    shadowEdgeMillimetres:
      fine && main >= 0
        ? lighting.memory.recall(`edge ${person}`, `${lighting.lightKey} ${main} ${litSign}`, () =>
            shadowEdgeMillimetres(lighting, person, main, litSign),
          )
        : null,
    noseShadow: noseShadow(lighting, person, main),
    nearest: nearestOf(margins),
    margins,
    catchlights: readCatchlights(lighting, person, viewfinder(stage.plan.camera, 1000)),
    glasses: readGlasses(lighting, person),
  };
}

/** The pattern alone, read once for each shift of the limit between lit and shadow, in stops: for charts, and to see how
 * firm a name is. */
export function patternOf(
  plan: Plan,
  person: number,
  memory: Memory,
  shifts: readonly number[],
): { pattern: Pattern; between: Pattern | null }[] {
  const lighting = lightUp(plan, "fine", memory);
  const shares = faceShares(lighting, person);
  const exposure = faceExposure(lighting, shares);
  const { arriving } = readBridge(plan, lighting, person);
  const marks = lighting.stage.people[person].shape.head.landmarks;
  return shifts.map((shift) => {
    const { pattern, between } = readPattern(shares.samples, exposure, marks, arriving, shift);
    return { pattern, between };
  });
}

/** n:1 both ways: lit to shadow side is (key + fill) : fill, and the key alone is one less (Army SS0510, published-checks
 * section 9: assumes a fill on the lens axis and no key in the shadow). */
function ratioOf(litCheek: number, shadowCheek: number): FaceReading["ratio"] {
  if (shadowCheek < DARK) return { litToShadow: null, keyToFill: null };
  const litToShadow = litCheek / shadowCheek;
  return { litToShadow, keyToFill: litToShadow - 1 };
}

const DARK = 0.001;

/** From these ratios of vector to scalar on (4 one small source, 2 a half-sphere, 0 all round); words for spread alone:
 * one softbox in a dark studio reads 3.8 and is right. Common practice, no source. */
const SPREAD: readonly (readonly [number, Spread])[] = [
  [3.4, "from one place"],
  [2.4, "mostly from one side"],
  [1.2, "wrapped"],
  [0, "from all round"],
];

function spreadOf(vectorScalarRatio: number | null): Spread | null {
  if (vectorScalarRatio === null) return null;
  return SPREAD.find(([least]) => vectorScalarRatio >= least)?.[1] ?? null;
}

/** The light that gives the face most directly; -1 where none does. */
export function strongestLight(lighting: Lighting, direct: readonly Float64Array[]): number {
  let best = -1;
  let most = 0;
  direct.forEach((d, l) => {
    if (!lighting.stage.lights[l].on) return;
    let sum = 0;
    for (const x of d) sum += x;
    sum *= lighting.stage.lights[l].lumenSeconds;
    if (sum > most) {
      most = sum;
      best = l;
    }
  });
  return best;
}

/** Broad: the lit side is turned to the camera; short: turned away (Navy manual, published-checks section 9). */
export function sideSeen(
  lighting: Lighting,
  person: number,
  litSide: FaceReading["litSide"],
): FaceReading["side"] {
  const { stage } = lighting;
  const staged = stage.people[person];
  const r = staged.headRotation;
  const d = [0, 1, 2].map((k) => stage.plan.camera.position[k] - staged.headOffset[k]);
  const ahead = r[0] * d[0] + r[3] * d[1] + r[6] * d[2];
  const left = r[1] * d[0] + r[4] * d[1] + r[7] * d[2];
  // how far round to the own left the camera stands, as seen from the nose
  const round = (Math.atan2(left, ahead) * 180) / Math.PI;
  if (Math.abs(round) <= SQUARE_DEGREES || litSide === "even") return "square";
  return round > 0 === (litSide === "left") ? "broad" : "short";
}
