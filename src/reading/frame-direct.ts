/** Light that comes straight from one lamp onto what the camera sees. */
import {
  cutFace,
  directFlat,
  type FaceParts,
  HIT,
  reach,
  SUBSETS,
  scatterFace,
  shareSeen,
} from "../engine/index.ts";
import { recallDirect } from "./direct-memory.ts";
import { pixelsBeside } from "./frame-filter.ts";
import { type FrameSamples, POINT, subsetOf } from "./frame-samples.ts";
import type { Lighting } from "./lighting.ts";
import { type KeepGoing, step } from "./progress.ts";
import { behindPanel } from "./spot.ts";
import { newSeenPoint } from "./surface-light.ts";

/** Numbers kept per sample and light: exposure if all of the face were seen, share of it that is, glow of a panel, and
 * the guess at the share. */
export const WIDTH = 4;
const OPEN = 0;
const SHARE = 1;
const GLOW = 2;
const GUESS = 3;

/** Neighbouring pixels take different sixteenths of these points; `evenOut` then shares them within 4 x 4. */
const POINTS = { glance: 16, coarse: 64, fine: 256 } as const;
/** A guess takes every fourth point of a sixteenth: the 25 pixels round one then ask at 100 places between them. */
const GUESS_EVERY = { glance: 1, coarse: 1, fine: 4 } as const;
/** Pixels from one that guesses to the next, across and down; those between go by it, or ask where guesses differ. */
const APART = { glance: 2, coarse: 1, fine: 1 } as const;
/** 64 parts: within 0.3 % of the closed form from half a diameter off (measured). */
const WHOLE_RINGS = { glance: 2, coarse: 4, fine: 4 } as const;
/** From so many radii on a quarter of the parts does as well. */
const DISTANT_RINGS = { glance: 1, coarse: 2, fine: 2 } as const;
const DISTANT = 4;

/** WIDTH numbers a sample. A few rays guess at the share that is seen; where all pixels round one agree that it is all
 * or nothing, so it is, and everywhere else four times the rays tell.
 * Errors  Stopped */
export function directOnSamples(
  lighting: Lighting,
  s: FrameSamples,
  name: string,
  light: number,
  keepGoing: KeepGoing,
): Float64Array {
  const { stage, memory, effort } = lighting;
  const { tracer } = stage;
  const emitter = stage.scene.emitters[light];
  const point = emitter.shape === "point";
  const guessEvery = point ? 1 : GUESS_EVERY[effort];
  const apart = APART[effort];
  const beside = apart > 1 ? pixelsBeside(s) : null;
  const guesses = (i: number) =>
    !beside || (i < pixels ? guesserOf(i, s.width, apart) === i : beside[i - pixels] < 0);
  const panel = newSeenPoint();
  let parts: FaceParts | null = null;
  const seen = (i: number, every: number): number => {
    parts ??= scatterFace(emitter, POINTS[effort]);
    const p = POINT * i;
    const q = s.points;
    const first = point ? 0 : subsetOf(s, i);
    const by = point ? 1 : SUBSETS * every;
    return shareSeen(tracer, light, parts, first, by, q[p], q[p + 1], q[p + 2], q[p + 3], q[p + 4], q[p + 5]);
  };
  const pixels = s.width * s.height;
  return recallDirect(memory, lighting, stage, light, "frame direct", {
    name,
    count: s.count,
    width: WIDTH,
    points: s.points,
    stride: POINT,
    prepare: () => {
      const whole = cutFace(emitter, point ? 1 : WHOLE_RINGS[effort]);
      const distant = cutFace(emitter, point ? 1 : DISTANT_RINGS[effort]);
      const far2 = (DISTANT * reach(emitter)) ** 2;
      const [cx, cy, cz] = emitter.centre;
      return (i, out) => {
        if ((i & 4095) === 0) step(keepGoing, (0.5 * i) / s.count);
        const k = WIDTH * i;
        out.fill(0, k, k + WIDTH);
        if (s.kind[i] === HIT.nothing || s.kind[i] === HIT.emitter) return;
        const p = POINT * i;
        const x = s.points[p];
        const y = s.points[p + 1];
        const z = s.points[p + 2];
        const nx = s.points[p + 3];
        const ny = s.points[p + 4];
        const nz = s.points[p + 5];
        const cut = (x - cx) ** 2 + (y - cy) ** 2 + (z - cz) ** 2 > far2 ? distant : whole;
        out[k + OPEN] = directFlat(tracer, light, cut, 0, 1, x, y, z, nx, ny, nz, false);
        // samples of an outline stand alone: they have no neighbours to agree with
        if (out[k + OPEN] > 0 && guesses(i)) out[k + GUESS] = seen(i, i < pixels ? guessEvery : 1);
        if (s.transmittance[i] > 0) {
          Object.assign(panel, { x, y, z, nx, ny, nz });
          out[k + GLOW] = s.transmittance[i] * behindPanel(tracer, light, lighting.parts[light], panel);
        }
      };
    },
    finish: (out, written) => {
      const unsure = guessEvery > 1 || apart > 1 ? unsurePixels(out, s, apart) : null;
      const near = unsure ? spread(written.subarray(0, pixels), s.width, s.height) : null;
      for (let i = 0; i < s.count; i++) {
        if ((i & 4095) === 0) step(keepGoing, 0.5 + (0.5 * i) / s.count);
        const k = WIDTH * i;
        if (!unsure || !near || i >= pixels || (guessEvery === 1 && guesses(i)))
          out[k + SHARE] = out[k + GUESS];
        else if (unsure[i] === 0) out[k + SHARE] = out[WIDTH * guesserOf(i, s.width, apart) + GUESS];
        else if (near[i] !== 0) out[k + SHARE] = out[k + OPEN] > 0 ? seen(i, 1) : 0;
      }
    },
  });
}

/** The pixel that guesses for a pixel. */
function guesserOf(pixel: number, width: number, apart: number): number {
  const x = pixel % width;
  const y = (pixel - x) / width;
  return pixel - (x % apart) - width * (y % apart);
}

/** 1 where not all guesses within two pixels are the same whole or nothing. */
function unsurePixels(direct: Float64Array, { width, height }: FrameSamples, apart: number): Uint8Array {
  const mixed = new Uint8Array(width * height);
  const guess = (i: number) => direct[WIDTH * i + GUESS];
  for (let y = 0; y < height; y += apart) {
    for (let x = 0; x < width; x += apart) {
      const i = y * width + x;
      const g = guess(i);
      if (g !== 0 && g !== 1) mixed[i] = 1;
      if (x > 0 && guess(i - apart) !== g) mixed[i] = mixed[i - apart] = 1;
      if (y > 0 && guess(i - apart * width) !== g) mixed[i] = mixed[i - apart * width] = 1;
    }
  }
  return spread(mixed, width, height);
}

/** 1 within two pixels of a 1. */
function spread(marks: Uint8Array, width: number, height: number): Uint8Array {
  const across = new Uint8Array(marks.length);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      if (marks[y * width + x] === 0) continue;
      for (let a = Math.max(0, x - 2); a <= Math.min(width - 1, x + 2); a++) across[y * width + a] = 1;
    }
  const out = new Uint8Array(marks.length);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      if (across[y * width + x] === 0) continue;
      for (let b = Math.max(0, y - 2); b <= Math.min(height - 1, y + 2); b++) out[b * width + x] = 1;
    }
  return out;
}
