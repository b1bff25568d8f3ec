/** What the picture would show of a face under one far light and even light from all round.
 *
 * luminance = gain x (reflectance x ways x (light x shadow x cosine + ambient x what is open of the sky + shine))^tone.
 * The face may be sheared and stretched in depth: pitch and depth are what a landmark model knows least. Shadows go along
 * exactly, since a shear and a stretch keep straight lines straight.
 * Source  Belhumeur, Kriegman and Yuille 1999, The bas-relief ambiguity */
import { skinLobe } from "../photometry/index.ts";
import { FLOOR, type LightSamples } from "./light-samples.ts";
import { REACH, type Shadows, STEP, writeDirection, writePlane } from "./light-shadows.ts";
import { DEPTH, PITCH, type ShapeWays, SKEW } from "./light-shape.ts";

/** Places of a fit's numbers; the ways in which the shape differs follow, then those in which skin does. */
export const AT = {
  u: 0,
  v: 1,
  logGain: 2,
  logAmbient: 3,
  logTone: 4,
  shine: 5,
  second: 6,
  shape: 7,
} as const;

/** Cosine within which scattering under the skin lets light round the terminator. Common practice, no source. */
const WRAP = 0.08;
/** Slope of skin's small mirrors. Source  Weyrich et al. 2006: 0.2 to 0.35 over a face */
const SLOPE = 0.28;
/** So that shine 1 is that of skin of reflectance 0.3: lobe x strength / (reflectance / pi). */
const SHINE = 5;
/** Of the logarithm of luminance: what reflectance differs by from place to place, and normals, radians. */
const SPOTS = 0.09;
const TILT = 0.1;
const LEAST = 0.05;
const DEGREE = Math.PI / 180;

export interface LightModel {
  readonly count: number;
  readonly size: number;
  /** log of (luminance over bright skin's + FLOOR) per sample, and how uncertain that is, variance */
  write(numbers: ArrayLike<number>): void;
  readonly shown: Float64Array;
  readonly variance: Float64Array;
  /** derivatives of `shown` at the numbers last written: `size` rows of `count` */
  writeSlopes(numbers: ArrayLike<number>): void;
  readonly slopes: readonly Float64Array[];
  /** share of direct light per sample: shadow x cosine, as last written */
  readonly lit: Float64Array;
  /** lit by a second light of strength 1, per sample: shadow x cosine; all 0 until it is written by others */
  readonly other: Float64Array;
  /** all light per sample, that of the lamp squarely on it being 1 */
  readonly arriving: Float64Array;
  readonly open: Float64Array;
}

export function makeLightModel(samples: LightSamples, shape: ShapeWays, shadows: Shadows): LightModel {
  const { count, logReflectance, ways } = samples;
  const { baseX, baseY, across, up, drifts } = shape;
  const bends = across.length;
  const skinAt = AT.shape + bends;
  const driftAt = skinAt + ways.length;
  const size = driftAt + drifts.length;
  const normal = new Float64Array(3 * count);
  const length = new Float64Array(count);
  const softness = new Float64Array(count);
  const slopeX = new Float64Array(count);
  const slopeY = new Float64Array(count);
  const visible = new Float64Array(count);
  const lit = new Float64Array(count);
  const slant = new Float64Array(count);
  const shine = new Float64Array(count);
  const litUp = new Float64Array(count);
  const shineUp = new Float64Array(count);
  const litDown = new Float64Array(count);
  const shineDown = new Float64Array(count);
  const unused = new Float64Array(count);
  const skin = new Float64Array(count);
  const arriving = new Float64Array(count);
  const kept = new Float64Array(count);
  const shown = new Float64Array(count);
  const variance = new Float64Array(count);
  const slopes = Array.from({ length: size }, () => new Float64Array(count));
  const light = new Float64Array(3);
  const flat = new Float64Array(2);
  const moved = new Float64Array(size);
  let toneNow = 1;
  const other = new Float64Array(count);
  const open = openSky(samples, shadows);

  /** Direct light, shine and how steeply the light falls, on the sheared and stretched face. */
  const writeLit = (direct: Float64Array, lobe: Float64Array, steep: Float64Array, q: ArrayLike<number>) => {
    writeDirection(light, q[AT.u], q[AT.v]);
    const [lx, ly, lz] = light;
    const [pitch, skew, depth] = [q[AT.shape + PITCH], q[AT.shape + SKEW], q[AT.shape + DEPTH]];
    writePlane(flat, lx, ly, (lz - skew * lx - pitch * ly) / Math.max(0.3, 1 + depth));
    shadows.writeVisible(visible, flat[0], flat[1]);
    slopeX.set(baseX);
    slopeY.set(baseY);
    for (let k = 0; k < bends; k++) {
      const by = q[AT.shape + k];
      if (by === 0) continue;
      const [gx, gy] = [across[k], up[k]];
      for (let i = 0; i < count; i++) {
        slopeX[i] += by * gx[i];
        slopeY[i] += by * gy[i];
      }
    }
    for (let i = 0; i < count; i++) {
      const gx = slopeX[i];
      const gy = slopeY[i];
      const long = Math.sqrt(gx * gx + gy * gy + 1);
      const x = -gx / long;
      const y = -gy / long;
      const z = 1 / long;
      const c = x * lx + y * ly + z * lz;
      const soft = c > WRAP ? c : c > -WRAP ? ((c + WRAP) * (c + WRAP)) / (4 * WRAP) : 0;
      direct[i] = soft * visible[i];
      steep[i] = visible[i] * visible[i] * (1 - c * c) * (c > -WRAP ? 1 : 0);
      lobe[i] = c > 0 ? SHINE * skinLobe(SLOPE, x, y, z, 0, 0, 1, lx, ly, lz) * c * visible[i] : 0;
      if (direct !== lit) continue;
      normal[3 * i] = x;
      normal[3 * i + 1] = y;
      normal[3 * i + 2] = z;
      length[i] = long;
      softness[i] = visible[i] * (c > WRAP ? 1 : c > -WRAP ? (c + WRAP) / (2 * WRAP) : 0);
    }
  };

  const write = (q: ArrayLike<number>) => {
    writeLit(lit, shine, slant, q);
    const ambient = Math.exp(q[AT.logAmbient]);
    const tone = Math.exp(q[AT.logTone]);
    for (let i = 0; i < count; i++) {
      let log = logReflectance[i];
      for (let k = 0; k < ways.length; k++) log += q[skinAt + k] * ways[k][i];
      skin[i] = log;
      // shine does not know the skin's own reflectance
      const m = lit[i] + ambient * open[i] + q[AT.shine] * shine[i] + q[AT.second] * other[i] + 1e-6;
      arriving[i] = m;
      const whole = Math.exp(q[AT.logGain] + tone * (log + Math.log(m)));
      shown[i] = Math.log(whole + FLOOR);
      for (let k = 0; k < drifts.length; k++) shown[i] += q[driftAt + k] * drifts[k][i];
      kept[i] = whole / (whole + FLOOR);
      const told = kept[i] * tone;
      variance[i] = LEAST * LEAST + told * told * (SPOTS * SPOTS + (TILT * TILT * slant[i]) / (m * m));
    }
  };

  /** By moving one number a little both ways. */
  const writeMoved = (q: ArrayLike<number>, which: number, by: number) => {
    const tone = Math.exp(q[AT.logTone]);
    moved.set(q as Float64Array);
    moved[which] = q[which] + by;
    writeLit(litUp, shineUp, unused, moved);
    moved[which] = q[which] - by;
    writeLit(litDown, shineDown, unused, moved);
    const out = slopes[which];
    for (let i = 0; i < count; i++)
      out[i] =
        (kept[i] * tone * (litUp[i] - litDown[i] + q[AT.shine] * (shineUp[i] - shineDown[i]))) /
        (2 * by * arriving[i]);
  };

  /** How the light on each sample follows a way of shape whose shadows are taken as they are. */
  const writeBent = (k: number) => {
    const [gx, gy, out] = [across[k], up[k], slopes[AT.shape + k]];
    const [lx, ly, lz] = light;
    for (let i = 0, n = 0; i < count; i++, n += 3) {
      const along = -gx[i] * normal[n] - gy[i] * normal[n + 1];
      const c = normal[n] * lx + normal[n + 1] * ly + normal[n + 2] * lz;
      out[i] =
        (kept[i] * toneNow * softness[i] * (-gx[i] * lx - gy[i] * ly - c * along)) /
        (length[i] * arriving[i]);
    }
  };

  const writeSlopes = (q: ArrayLike<number>) => {
    const ambient = Math.exp(q[AT.logAmbient]);
    const tone = Math.exp(q[AT.logTone]);
    toneNow = tone;
    writeMoved(q, AT.u, 2);
    writeMoved(q, AT.v, 2);
    writeMoved(q, AT.shape + PITCH, 0.03);
    writeMoved(q, AT.shape + SKEW, 0.03);
    writeMoved(q, AT.shape + DEPTH, 0.04);
    writeDirection(light, q[AT.u], q[AT.v]);
    for (let k = DEPTH + 1; k < bends; k++) writeBent(k);
    for (let k = 0; k < drifts.length; k++) slopes[driftAt + k].set(drifts[k]);
    for (let i = 0; i < count; i++) {
      const told = kept[i] * tone;
      slopes[AT.logGain][i] = kept[i];
      slopes[AT.logAmbient][i] = (told * ambient * open[i]) / arriving[i];
      slopes[AT.logTone][i] = told * (skin[i] + Math.log(arriving[i]));
      slopes[AT.shine][i] = (told * shine[i]) / arriving[i];
      slopes[AT.second][i] = (told * other[i]) / arriving[i];
      for (let k = 0; k < ways.length; k++) slopes[skinAt + k][i] = told * ways[k][i];
    }
  };

  return { count, size, write, shown, variance, writeSlopes, slopes, lit, other, arriving, open };
}

/** How much of an even surround each sample sees, 1 where nothing hides any: over every other node of the grid. */
function openSky({ count, normals }: LightSamples, shadows: Shadows): Float64Array {
  const open = new Float64Array(count);
  const visible = new Float64Array(count);
  const light = new Float64Array(3);
  const step = SKY_STEP;
  for (let v = -REACH; v <= REACH; v += step)
    for (let u = -REACH; u <= REACH; u += step) {
      const angle = Math.hypot(u, v);
      if (angle > REACH) continue;
      writeDirection(light, u, v);
      shadows.writeVisible(visible, u, v);
      const solid = (step * DEGREE) ** 2 * (angle > 0 ? Math.sin(angle * DEGREE) / (angle * DEGREE) : 1);
      for (let i = 0; i < count; i++) {
        const c = normals[3 * i] * light[0] + normals[3 * i + 1] * light[1] + normals[3 * i + 2] * light[2];
        if (c > 0) open[i] += (solid * c * visible[i]) / Math.PI;
      }
    }
  return open;
}

/** Degrees between the directions of the sky, all of them nodes of the grid. */
export const SKY_STEP = 3 * STEP;
