/** Which samples of a picture show skin, and what each needs to be made of. */
import { HIT } from "../engine/index.ts";
import { MATERIAL } from "../figure/index.ts";
import { type LobeShares, lobeShares } from "../photometry/index.ts";
import type { StagedPerson } from "../staging/index.ts";
import type { Viewfinder } from "./camera-rays.ts";
import { EXTRA, type FrameSamples, materialOf, POINT, SEEN } from "./frame-samples.ts";
import { type SkinNet, skinNet } from "./frame-scatter.ts";
import type { Lighting } from "./lighting.ts";

export interface SkinSamples {
  /** sample numbers, ascending: first those of pixels, as many as the net has, then those of outlines */
  readonly sample: Uint32Array;
  readonly net: SkinNet;
  /** per sample of an outline: the sample of a pixel beside it on the same skin, counted as in `sample`; -1 for none */
  readonly beside: Int32Array;
  /** how much of its person's shine each has: see `glossAt` */
  readonly gloss: Float32Array;
  /** 1 for lips */
  readonly lip: Uint8Array;
  /** 1 where skin reflects all channels alike: then light wanders alike in all, and grey stays grey */
  readonly grey: Uint8Array;
}

export function skinSamples(lighting: Lighting, view: Viewfinder, s: FrameSamples): SkinSamples {
  const { stage } = lighting;
  const sample: number[] = [];
  for (let i = 0; i < s.count; i++) if (s.seen[i] === SEEN.skin && s.kind[i] === HIT.mesh) sample.push(i);
  const pixels = s.width * s.height;
  const first = sample.findIndex((i) => i >= pixels);
  const inPicture = Uint32Array.from(first < 0 ? sample : sample.slice(0, first));
  const perPixel = (2 * view.tanX) / view.width;
  const net = skinNet(s.width, inPicture, s.points, POINT, s.index, (i) => perPixel * s.depth[i]);
  const numberOf = new Map<number, number>();
  inPicture.forEach((pixel, k) => {
    numberOf.set(pixel, k);
  });
  const beside = new Int32Array(sample.length - inPicture.length);
  for (let k = 0; k < beside.length; k++) {
    const i = sample[inPicture.length + k];
    const pixel = s.edges[Math.floor((i - pixels) / EXTRA)];
    const near = [pixel, pixel - 1, pixel + 1, pixel - s.width, pixel + s.width];
    const same = near.find((p) => numberOf.has(p) && s.index[p] === s.index[i]);
    beside[k] = same === undefined ? -1 : (numberOf.get(same) ?? -1);
  }
  const grey = Uint8Array.from(sample, (i) => {
    const [r, g, b] = stage.looks[s.index[i]][MATERIAL.skin];
    return +(r === g && g === b);
  });
  const lip = Uint8Array.from(sample, (i) => +(materialOf(s.surfaceId[i]) === MATERIAL.lip));
  const gloss = Float32Array.from(sample, (i, k) => {
    if (lip[k]) return LIP_GLOSS;
    const owner = stage.owners[s.index[i]];
    return owner.kind === "head" ? glossAt(stage.people[owner.person], s.points, POINT * i) : ELSEWHERE;
  });
  return { sample: Uint32Array.from(sample), net, beside, gloss, lip, grey };
}

/** Lips are moister and smoother than skin: they glint brighter and closer (common practice, no source). */
const LIP_GLOSS = 1.5;
const LIP_SLOPE = 0.7;
/** Forehead, nose and chin are oilier than cheeks and temples, and those than neck and shoulders: Weyrich et al. 2006
 * measured that they are; by how much is from looking (no source). */
const OILY = 1.25;
export const ELSEWHERE = 0.85;
/** Where, and how far round a landmark, metres. */
const OILY_PLACES = [
  ["forehead", 0.032],
  ["noseBridge", 0.014],
  ["noseTip", 0.017],
  ["chin", 0.016],
] as const;

/** A share of the person's shine by place on the head, without a step anywhere. */
export function glossAt(person: StagedPerson, points: Float32Array, at: number): number {
  const r = person.headRotation;
  const o = person.headOffset;
  const x = points[at] - o[0];
  const y = points[at + 1] - o[1];
  const z = points[at + 2] - o[2];
  const ahead = r[0] * x + r[3] * y + r[6] * z;
  const left = r[1] * x + r[4] * y + r[7] * z;
  const up = r[2] * x + r[5] * y + r[8] * z;
  const { landmarks } = person.shape.head;
  let dry = 1;
  for (const [name, reach] of OILY_PLACES) {
    const p = landmarks[name];
    const d2 = (ahead - p[0]) ** 2 + (left - p[1]) ** 2 + (up - p[2]) ** 2;
    dry *= 1 - Math.exp(-d2 / (reach * reach));
  }
  return OILY + dry * (ELSEWHERE - OILY);
}

/** How somebody's skin glints. */
export interface Finish {
  readonly shine: number;
  readonly skin: LobeShares;
  readonly lip: LobeShares;
}

/** Per mesh of the scene; null for what is nobody. */
export function finishes(lighting: Lighting): readonly (Finish | null)[] {
  const { stage, memory } = lighting;
  const people = memory.recall("finishes", finishKey(lighting), () =>
    stage.plan.people.map(({ skin }) => ({
      shine: skin.shine,
      skin: lobeShares(skin.roughness),
      lip: lobeShares(LIP_SLOPE * skin.roughness),
    })),
  );
  return stage.owners.map((owner) => (owner.kind === "backdrop" ? null : people[owner.person]));
}

/** Names all that glints depend on beside what is traced. */
export function finishKey(lighting: Lighting): string {
  return JSON.stringify(lighting.stage.plan.people.map(({ skin }) => [skin.shine, skin.roughness]));
}
