/** Neck to floor: a plain clothed body that blocks and returns light as a person does. Body axes: x ahead, y own left,
 * z up from the floor. Widths from ANSUR II means (bideltoid 480, biacromial 390 mm at a stature of 1.69 m). */
import { neckband, overBand, overNeck } from "./collar.ts";
import { blend, bothSides, ellipsoid, type Field, limb } from "./fields.ts";
import { joinMeshes } from "./solids.ts";
import { skinOfField } from "./surface-nets.ts";
import { MATERIAL, type Mesh } from "./types.ts";

const REFERENCE_STATURE = 1.7;
/** Of somebody of reference stature, metres: hip joints under the ears, over the floor, over the seat. */
const HIPS_UNDER_EARS = 0.68;
const HIPS_HIGH = 0.89;
const HIPS_OVER_SEAT = 0.085;
/** Grid of the body's skin and of the neck's. */
const BODY_CELL = 0.019;
const NECK_CELL = 0.012;
/** Within the head's own neck a second one, that much thinner, fills the collar to so far under its plane. */
const NECK_WITHIN = 0.006;
const NECK_BELOW = 0.01;
/** Where it may begin and where it ends, under the ears. */
const NECK_TOP = 0.1;
const NECK_FOOT = 0.19;

/** `seat` is the seat's height, or null for somebody who stands. */
export function buildBody(earHeight: number, stature: number, seat: number | null): Mesh {
  const k = stature / REFERENCE_STATURE;
  const hips = seat === null ? HIPS_HIGH * k : seat + HIPS_OVER_SEAT * k;
  const upper = upperBody(earHeight, hips, k, seat !== null);
  const legs = seat === null ? standingLegs(hips, k) : seatedLegs(hips, k);
  const clothes: Field = (x, y, z) => blend(upper(x, y, z), legs(x, y, z), 0.09 * k);
  const reach = seat === null ? 0.2 : 0.72;
  const neck: Field = (x, y, z) =>
    Math.max(
      overNeck(x, y, z, earHeight) + NECK_WITHIN,
      overBand(x, z, earHeight) + NECK_BELOW,
      earHeight - NECK_FOOT - z,
    );
  const upTo = (under: number, cell: number) => earHeight - under + 2 * cell;
  const from = (under: number, cell: number) => earHeight - under - 2 * cell;
  return joinMeshes([
    skinOfField(
      clothes,
      { x: [-0.24 * k, reach * k], y: 0.36 * k, z: [-2 * BODY_CELL, earHeight - 0.05] },
      BODY_CELL,
      MATERIAL.clothing,
    ),
    neckband(earHeight),
    skinOfField(
      neck,
      { x: [-0.11, 0.07], y: 0.085, z: [from(NECK_FOOT, NECK_CELL), upTo(NECK_TOP, NECK_CELL)] },
      NECK_CELL,
      MATERIAL.skin,
    ),
  ]);
}

/** Clothes lie this far off the neck. */
const COLLAR = 0.003;

/** Collar, shoulders, chest, waist, hips and arms. Heights are given as lengths under the ears at reference stature,
 * and stretched so that the hips lie where the legs begin. */
function upperBody(ears: number, hips: number, k: number, seated: boolean): Field {
  const stretch = (ears - hips) / HIPS_UNDER_EARS;
  const at = (x: number, y: number, under: number) => [x * k, y * k, ears - under * stretch];
  const round = (x: number, under: number, rx: number, ry: number, rz: number) =>
    ellipsoid(x * k, 0, ears - under * stretch, rx * k, ry * k, rz * stretch);
  const nape = limb(at(-0.04, 0.05, 0.18), 0.042 * k, at(-0.033, 0.15, 0.213), 0.041 * k);
  const shoulder = limb(at(-0.03, 0.06, 0.225), 0.062 * k, at(-0.022, 0.165, 0.23), 0.055 * k);
  const chest = round(-0.004, 0.35, 0.115, 0.168, 0.19);
  const breast = limb(at(0.05, 0.075, 0.295), 0.058 * k, at(0.03, 0.12, 0.26), 0.045 * k);
  const waist = round(0.0, 0.52, 0.1, 0.14, 0.17);
  const pelvis = round(-0.012, 0.64, 0.115, 0.154, 0.115);
  const elbow = at(seated ? -0.03 : -0.045, seated ? 0.23 : 0.246, 0.5);
  const wrist = seated ? [0.2 * k, 0.16 * k, hips + 0.115 * k] : at(0.02, 0.275, 0.74);
  const hand = seated ? [0.3 * k, 0.12 * k, hips + 0.1 * k] : at(0.04, 0.272, 0.84);
  const upperArm = limb(at(-0.02, 0.18, 0.23), 0.052 * k, elbow, 0.043 * k);
  const forearm = limb(elbow, 0.043 * k, wrist, 0.031 * k);
  const palm = limb(wrist, 0.031 * k, hand, 0.034 * k);
  return (x, y, z) => {
    const side = bothSides(y, 0.02);
    let trunk = blend(chest(x, y, z), waist(x, y, z), 0.12 * k);
    trunk = blend(trunk, pelvis(x, y, z), 0.12 * k);
    trunk = blend(trunk, breast(x, side, z), 0.05 * k);
    trunk = blend(trunk, shoulder(x, side, z), 0.08 * k);
    trunk = blend(trunk, nape(x, side, z), 0.05 * k);
    const arm = Math.min(upperArm(x, side, z), forearm(x, side, z), palm(x, side, z));
    trunk = blend(trunk, arm, 0.045 * k);
    return Math.max(blend(trunk, overNeck(x, y, z, ears) - COLLAR, 0.03), overBand(x, z, ears));
  };
}

function standingLegs(hips: number, k: number): Field {
  const thigh = limb([0, 0.095 * k, hips], 0.082 * k, [0.008 * k, 0.095 * k, 0.49 * k], 0.062 * k);
  const shin = limb(
    [0.008 * k, 0.095 * k, 0.49 * k],
    0.062 * k,
    [-0.025 * k, 0.095 * k, 0.08 * k],
    0.048 * k,
  );
  return legsOf(thigh, shin, foot(-0.03, k));
}

function seatedLegs(hips: number, k: number): Field {
  const knee = [0.46 * k, 0.11 * k, hips];
  const thigh = limb([0, 0.095 * k, hips], 0.085 * k, knee, 0.064 * k);
  const shin = limb(knee, 0.064 * k, [0.45 * k, 0.11 * k, 0.08 * k], 0.048 * k);
  return legsOf(thigh, shin, foot(0.44, k));
}

/** A shoe whose sole lies on the floor. */
function foot(heel: number, k: number): Field {
  return limb(
    [heel * k, 0.1 * k, 0.045 * k],
    0.045 * k,
    [(heel + 0.17) * k, 0.115 * k, 0.038 * k],
    0.038 * k,
  );
}

function legsOf(thigh: Field, shin: Field, shoe: Field): Field {
  return (x, y, z) => {
    const side = bothSides(y, 0.01);
    return blend(Math.min(thigh(x, side, z), shin(x, side, z)), shoe(x, side, z), 0.03);
  };
}
