/** What the surface of skin throws back like a rough mirror, beside the light that goes in and comes out coloured.
 * Source  form and range: Weyrich et al. 2006, Analysis of human faces (149 people), who fit Torrance and Sparrow 1967;
 * slopes by Beckmann and Spizzichino 1963, Fresnel at n = 1.4. The factor 1/4 is the one that keeps energy. */

/** Refractive index of the oily layer on skin; Weyrich et al. 2006 take 1.38 to 1.44 for it (from memory). */
export const SKIN_INDEX = 1.4;

/** Share that a smooth surface reflects of unpolarised light, by the cosine of the angle: `fresnelReflectance` without
 * its questions, for every pixel. Source  Fresnel, in the form of Cook and Torrance 1982 */
export function fresnelByCosine(cosine: number, index: number): number {
  const c = Math.max(cosine, 0);
  const g = Math.sqrt(index * index - 1 + c * c);
  const across = (g - c) / (g + c);
  const along = (c * (g + c) - 1) / (c * (g - c) + 1);
  return 0.5 * across * across * (1 + along * along);
}

/** Beyond this many squared slopes nothing glints: e^-30. */
const STEEPEST = 30;

/** Radiance out over irradiance in, 1/sr.
 * Shape   unit vectors from the surface: n its normal, v to the eye, l to the light
 * Units   slope: root mean square slope of the small mirrors
 * Domain  slope above 0; 0 where eye or light lies below the horizon
 * Accuracy reciprocal; its integral over all directions is at most 1; skin-lobe.test.ts
 * Source  D F G / (4 (n.l) (n.v)), D = e^(-tan^2 / m^2) / (pi m^2 cos^4), G of the V-grooves of Torrance and Sparrow */
export function skinLobe(
  slope: number,
  nx: number,
  ny: number,
  nz: number,
  vx: number,
  vy: number,
  vz: number,
  lx: number,
  ly: number,
  lz: number,
): number {
  const nv = nx * vx + ny * vy + nz * vz;
  const nl = nx * lx + ny * ly + nz * lz;
  if (!(nv > 0 && nl > 0)) return 0;
  const hx = vx + lx;
  const hy = vy + ly;
  const hz = vz + lz;
  const h = Math.sqrt(hx * hx + hy * hy + hz * hz);
  const nh = (nv + nl) / h;
  // v.h = l.h = |v + l| / 2
  const vh = h / 2;
  const cos2 = nh * nh;
  const m2 = slope * slope;
  const exponent = (1 - cos2) / (cos2 * m2);
  if (exponent > STEEPEST) return 0;
  const spread = Math.exp(-exponent) / (Math.PI * m2 * cos2 * cos2);
  const grooves = Math.min(1, (2 * nh * Math.min(nv, nl)) / vh);
  return (spread * grooves * fresnelByCosine(vh, SKIN_INDEX)) / (4 * nv * nl);
}

/** What a lobe throws back in all: of light that comes from one direction, and of light that comes evenly from all. */
export interface LobeShares {
  readonly slope: number;
  /** by cosine of the angle off the normal, from 0 to 1 in equal steps */
  readonly byCosine: Float64Array;
  /** of an even surround: 2 x the integral of the former times its cosine */
  readonly mean: number;
}

const COSINES = 32;
const SLOPES = 24;
const TURNS = 24;

/** Sums the lobe over all directions, by its own small mirrors.
 * Domain  slope above 0
 * Accuracy 0.5 % of a plain sum over directions; skin-lobe.test.ts
 * Source  the integral of D F G v.h / (n.v) over the mirrors' normals; Walter et al. 2007, equation 17 turned round */
export function lobeShares(slope: number): LobeShares {
  const byCosine = new Float64Array(COSINES + 1);
  for (let i = 0; i <= COSINES; i++) {
    // eye-on the sum has no limit in numbers: half a step in stands for it
    const nv = Math.max(i, 0.25) / COSINES;
    const nvAside = Math.sqrt(1 - nv * nv);
    let sum = 0;
    for (let s = 0; s < SLOPES; s++) {
      const tan2 = -slope * slope * Math.log((s + 0.5) / SLOPES);
      const nh = 1 / Math.sqrt(1 + tan2);
      const nhAside = Math.sqrt(1 - nh * nh);
      for (let t = 0; t < TURNS; t++) {
        const vh = nv * nh + nvAside * nhAside * Math.cos((Math.PI * (t + 0.5)) / TURNS);
        if (!(vh > 0)) continue;
        const nl = 2 * vh * nh - nv;
        if (!(nl > 0)) continue;
        const grooves = Math.min(1, (2 * nh * Math.min(nv, nl)) / vh);
        sum += (grooves * fresnelByCosine(vh, SKIN_INDEX) * vh) / (nv * nh);
      }
    }
    byCosine[i] = sum / (SLOPES * TURNS);
  }
  let mean = 0;
  for (let i = 0; i <= COSINES; i++) {
    const ends = i === 0 || i === COSINES ? 0.5 : 1;
    mean += (ends * 2 * byCosine[i] * i) / (COSINES * COSINES);
  }
  return { slope, byCosine, mean };
}

/** Share of light from one direction that glints off, by the cosine of its angle. */
export function lobeShare({ byCosine }: LobeShares, cosine: number): number {
  const x = COSINES * Math.max(0, Math.min(1, cosine));
  const i = Math.min(COSINES - 1, Math.floor(x));
  return byCosine[i] + (x - i) * (byCosine[i + 1] - byCosine[i]);
}

/** Reflectance of what lies under the glinting surface so that both together reflect `reflectance`; 0 where the glints
 * alone are more (a dark channel of wet skin). `straight` is the share that glints off of light from straight ahead:
 * skin's reflectance is measured face on with the light of all directions (or the other way about), glints included.
 * Toward the rim of a face the glints grow, and an even surround shows skin brighter there, as it does in life.
 * Source  reflectance = s + u (1 - s); light that goes in and comes out loses (1 - s) each way over its mean,
 * Kelemen and Szirmay-Kalos 2001 */
export function underShine(reflectance: number, straight: number): number {
  return reflectance > straight ? (reflectance - straight) / (1 - straight) : 0;
}
