/** From the lights of a plan to emitters and to what each sends out. */
import {
  directAtMeter,
  type Emitter,
  intensityPerLumen,
  type LightDistribution,
  SceneBuilder,
  Tracer,
} from "../engine/index.ts";
import {
  axialExposure,
  exposureOfReading,
  LUMINANCE,
  lightColour,
  METER_CONSTANT,
  meterColour,
  type PhotometricFile,
  photometricWeb,
  webFlux,
} from "../photometry/index.ts";
import { axesOf, directionOf, type Light, type Plan, photometryOf } from "../plan/index.ts";

export interface StagedLight {
  readonly name: string;
  readonly on: boolean;
  /** lm.s that leave the face in one flash, as calibrated, before the gel */
  readonly lumenSeconds: number;
  /** luminance-weighted factor per channel for meters: their sum over a neutral share is the gel's loss */
  readonly meterWeights: readonly [number, number, number];
  /** per channel, for the camera's white balance */
  readonly cameraWeights: readonly [number, number, number];
}

export function emitterOf(light: Light, plan: Plan): Emitter {
  const { bearing_deg, tilt_deg } = directionOf(light.direction, light.position);
  const axes = axesOf(bearing_deg, tilt_deg, light.roll);
  const face = light.face;
  return {
    shape: face.shape,
    centre: Float64Array.from(light.position),
    right: Float64Array.from(axes.right),
    up: Float64Array.from(axes.up),
    forward: Float64Array.from(axes.forward),
    halfWidth: face.shape === "point" ? 0 : face.width / 2,
    halfHeight: face.shape === "rectangle" ? face.height / 2 : face.shape === "point" ? 0 : face.width / 2,
    sides: face.shape === "polygon" ? face.sides : 0,
    exponent: light.beam.photometry === undefined ? light.beam.exponent : 1,
    edgeDrop: face.shape === "point" ? 0 : light.beam.edgeDrop,
    distribution: distributionOf(light, plan),
  };
}

/** Luminous energy of one flash, lm.s, as written in any of the ways in which a plan may give it; calibration comes on top.
 * Source  plan-format.md, output; guide number: axial intensity = C GN^2 / S with C = 250 */
export function luminousEnergyOf(light: Light, plan: Plan): number {
  const o = light.output;
  if ("lumenSeconds" in o) return o.lumenSeconds;
  if ("wattSeconds" in o) return o.wattSeconds * o.lumensPerWatt * o.efficiency * 2 ** -o.stopsDown;
  if ("guideNumber" in o) {
    const intensity = ((METER_CONSTANT.flat * o.guideNumber ** 2) / o.iso) * 2 ** -o.stopsDown;
    return intensity / axialIntensity(light, plan);
  }
  const { fNumber, iso, distance, receptor } = o.meter;
  const exposure = exposureOfReading(fNumber, iso, METER_CONSTANT[receptor]);
  return exposure / exposureOnAxis(light, plan, distance, receptor);
}

/** Intensity along the axis of one lumen-second, 1/sr. */
function axialIntensity(light: Light, plan: Plan): number {
  const d = distributionOf(light, plan);
  return d ? intensityPerLumen(d, 1, 0, 0) : (light.beam.exponent + 1) / (2 * Math.PI);
}

/** Exposure on the axis of one lumen-second, unobstructed, as a receptor that faces the light reads it. */
function exposureOnAxis(light: Light, plan: Plan, distance: number, receptor: "flat" | "dome"): number {
  const { exponent, edgeDrop } = light.beam;
  const e = emitterOf(light, plan);
  if (!e.distribution) return axialExposure(light.face, exponent, edgeDrop, distance, receptor);
  const alone = new SceneBuilder();
  alone.addEmitter(e);
  const tracer = new Tracer(alone.build());
  const p = [0, 1, 2].map((k) => e.centre[k] + distance * e.forward[k]);
  const field = { sum: 0, x: 0, y: 0, z: 0 };
  const n = [-e.forward[0], -e.forward[1], -e.forward[2]];
  const flat = directAtMeter(tracer, 0, p, n, field);
  return receptor === "flat" ? flat : (field.sum + field.x * n[0] + field.y * n[1] + field.z * n[2]) / 2;
}

/** A photometric file's spread per lumen that leaves: into the half-space in front from a front with a size, all round
 * from a bare point; null for a lobe. */
function distributionOf(light: Light, plan: Plan): LightDistribution | null {
  const file = photometryOf(plan, light);
  if (!file) return null;
  const frontOnly = light.face.shape !== "point";
  const kept = webs.get(file)?.[+frontOnly];
  if (kept) return kept;
  const web = photometricWeb(file, frontOnly);
  const flux = webFlux(web);
  const { vertical_rad, horizontal_rad } = web;
  const made = { vertical_rad, horizontal_rad, perLumen: web.candela.map((cd) => cd / flux) };
  const both = webs.get(file) ?? [null, null];
  both[+frontOnly] = made;
  webs.set(file, both);
  return made;
}

/** Per file: all round, and the half-space in front. */
const webs = new WeakMap<PhotometricFile, (LightDistribution | null)[]>();

export function stageLight(light: Light, plan: Plan): StagedLight {
  const white = meterColour(light.kelvin);
  const camera = lightColour(light.kelvin, plan.camera.whiteBalance);
  const gel = light.gel.rgb;
  return {
    name: light.name,
    on: light.on,
    lumenSeconds: luminousEnergyOf(light, plan) * 2 ** (light.calibration?.stops ?? 0),
    meterWeights: [0, 1, 2].map((c) => LUMINANCE[c] * white[c] * gel[c]) as [number, number, number],
    cameraWeights: [0, 1, 2].map((c) => camera[c] * gel[c]) as [number, number, number],
  };
}
