/** The pattern that light draws on a face, from the connected lit and shadowed regions of the face itself.
 * The rule in words and drawings: docs/patterns.md. */
import { REGION } from "../figure/index.ts";
import type { FaceSamples } from "./face-samples.ts";
import type { Pattern } from "./types.ts";

export interface FaceMarks {
  readonly noseBridge: readonly [number, number, number];
  readonly noseTip: readonly [number, number, number];
  readonly upperLip: readonly [number, number, number];
}

export interface PatternReading {
  readonly pattern: Pattern;
  readonly litSide: "left" | "right" | "even";
  readonly litCheek: number;
  readonly shadowCheek: number;
  readonly ratioStops: number | null;
}

/** Under this nothing is read, lx.s (plan-format: accuracy floor). */
const DARK = 0.001;
/** Cheeks closer than this are even, stops (plan-format). */
const EVEN_STOPS = 0.15;
/** The floor of the face is its 5th percentile, but not under 6 stops below the lit cheek. */
const FLOOR_SHARE = 0.05;
const DEEPEST = 64;
/** Less than a stop from floor to lit cheek: nothing to draw a pattern with. */
const FLAT_RATIO = 2;
/** A lit patch or a shadow smaller than this is not one a person sees on a face, m2 (0.6 cm2). */
const VISIBLE_AREA = 0.6e-4;
/** A lit cheek that gets less than this share of what a receptor turned to the light gets there is only grazed:
 * the light stands behind. A cheek's flesh looks about 30 degrees aside, so that this falls near 105 degrees. */
const GRAZED_SHARE = 0.25;
/** Skin that looks down gets this much more than skin that looks up: a level light gives both the same, within what
 * brow and lip take away from either. */
const UNDER_SHARE = 1.25;
/** A nose shadow this much to one side is a loop; more even than this it lies under the nose. */
const LOOP_LEAN = 0.2;

/** `arriving` is the length of the light vector at the bridge of the nose, the person taken away, lx.s. */
export function readPattern(
  s: FaceSamples,
  exposure: Float64Array,
  marks: FaceMarks,
  arriving: number,
): PatternReading {
  const left = meanOver(s, exposure, (i) => s.region[i] === REGION.leftCheek);
  const right = meanOver(s, exposure, (i) => s.region[i] === REGION.rightCheek);
  const litCheek = Math.max(left, right);
  const shadowCheek = Math.min(left, right);
  const ratioStops = shadowCheek < DARK ? null : Math.log2(litCheek / shadowCheek);
  const even = litCheek < DARK || (ratioStops !== null && ratioStops < EVEN_STOPS);
  const litSide = even ? "even" : left > right ? "left" : "right";
  return {
    pattern: nameOf(s, exposure, marks, arriving, litCheek, left >= right ? 1 : -1),
    litSide,
    litCheek,
    shadowCheek,
    ratioStops,
  };
}

/** The exposure above which a sample counts as lit: midway, in stops, between the lit cheek and the floor. */
export function litLimit(s: FaceSamples, exposure: Float64Array, litCheek: number): number {
  return Math.sqrt(litCheek * floorOf(s, exposure, litCheek));
}

function floorOf(s: FaceSamples, exposure: Float64Array, litCheek: number): number {
  const order = Array.from({ length: s.count }, (_, i) => i).sort((a, b) => exposure[a] - exposure[b]);
  let total = 0;
  for (let i = 0; i < s.count; i++) total += s.area[i];
  let passed = 0;
  for (const i of order) {
    passed += s.area[i];
    if (passed >= FLOOR_SHARE * total) return Math.max(exposure[i], litCheek / DEEPEST);
  }
  return litCheek;
}

function nameOf(
  s: FaceSamples,
  exposure: Float64Array,
  marks: FaceMarks,
  arriving: number,
  litCheek: number,
  litSign: 1 | -1,
): Pattern {
  const brightest = meanOver(s, exposure, () => true);
  if (litCheek < DARK && brightest < DARK) return "dark";
  if (litCheek < DARK || litCheek < GRAZED_SHARE * arriving) return "rim";
  const limit = litLimit(s, exposure, litCheek);
  const lit = new Uint8Array(s.count);
  for (let i = 0; i < s.count; i++) if (exposure[i] > limit) lit[i] = 1;
  if (litCheek / floorOf(s, exposure, litCheek) < FLAT_RATIO) return "flat";
  const down = meanOver(s, exposure, (i) => s.normal[3 * i + 2] < -0.3);
  const upward = meanOver(s, exposure, (i) => s.normal[3 * i + 2] > 0.3);
  if (down > UNDER_SHARE * upward) return "under";
  const patch = farPatch(s, lit, marks, litSign);
  if (patch === "none") return "split";
  if (patch === "closed") return "rembrandt";
  return underNose(s, lit, marks, litSign);
}

/** Is there a lit patch on the far cheek, and is it shut in by the nose's shadow meeting the cheek's?
 * Looked for below the eyes on the far half of the face; it is open if the light on it runs on, unbroken,
 * past the corner of the mouth. */
function farPatch(
  s: FaceSamples,
  lit: Uint8Array,
  marks: FaceMarks,
  litSign: 1 | -1,
): "none" | "closed" | "open" {
  const eyeLine = marks.noseBridge[2] - 0.008;
  const mouth = marks.upperLip[2];
  const inside = new Uint8Array(s.count);
  for (let i = 0; i < s.count; i++) {
    const far = -litSign * s.position[3 * i + 1];
    if (lit[i] && s.region[i] !== REGION.nose && s.position[3 * i + 2] < eyeLine && far > -0.004)
      inside[i] = 1;
  }
  const visited = new Uint8Array(s.count);
  let best: "none" | "closed" | "open" = "none";
  let bestArea = VISIBLE_AREA;
  for (let i = 0; i < s.count; i++) {
    if (!inside[i] || visited[i]) continue;
    let cheekArea = 0;
    let runsOn = false;
    flood(s, inside, visited, i, (j) => {
      const z = s.position[3 * j + 2];
      const far = -litSign * s.position[3 * j + 1];
      if (z > mouth && far > 0.016) cheekArea += s.area[j];
      if (z < mouth - 0.012) runsOn = true;
    });
    if (cheekArea > bestArea) {
      bestArea = cheekArea;
      best = runsOn ? "open" : "closed";
    }
  }
  return best;
}

/** Where the nose's shadow lies: to one side (loop), under the nose (butterfly), or nowhere (flat). */
function underNose(s: FaceSamples, lit: Uint8Array, marks: FaceMarks, litSign: 1 | -1): Pattern {
  let far = 0;
  let near = 0;
  for (let i = 0; i < s.count; i++) {
    const y = -litSign * s.position[3 * i + 1];
    const z = s.position[3 * i + 2];
    const band = z < marks.noseTip[2] + 0.012 && z > marks.upperLip[2] - 0.006 && Math.abs(y) < 0.034;
    if (!band || lit[i] || s.normal[3 * i] < 0.2) continue;
    if (y > 0) far += s.area[i];
    else near += s.area[i];
  }
  if (far + near < VISIBLE_AREA) return "flat";
  return (far - near) / (far + near) > LOOP_LEAN ? "loop" : "butterfly";
}

function flood(
  s: FaceSamples,
  inside: Uint8Array,
  visited: Uint8Array,
  start: number,
  visit: (i: number) => void,
) {
  const todo = [start];
  visited[start] = 1;
  while (todo.length > 0) {
    const i = todo.pop() as number;
    visit(i);
    for (let k = s.offset[i]; k < s.offset[i + 1]; k++) {
      const j = s.neighbour[k];
      if (inside[j] && !visited[j]) {
        visited[j] = 1;
        todo.push(j);
      }
    }
  }
}

function meanOver(s: FaceSamples, values: Float64Array, wanted: (i: number) => boolean): number {
  let sum = 0;
  let area = 0;
  for (let i = 0; i < s.count; i++) {
    if (!wanted(i)) continue;
    sum += s.area[i] * values[i];
    area += s.area[i];
  }
  return area > 0 ? sum / area : 0;
}
