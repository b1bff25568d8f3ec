/** From the lights of a plan to emitters and to what each sends out. */
import type { Emitter } from "../engine/index.ts";
import {
  axialExposure,
  exposureOfReading,
  LUMINANCE,
  lightColour,
  METER_CONSTANT,
  meterColour,
} from "../photometry/index.ts";
import { axesOf, directionOf, type Light, type Plan } from "../plan/index.ts";

export interface StagedLight {
  readonly name: string;
  readonly on: boolean;
  /** lm.s that leave the face in one flash, before the gel */
  readonly lumenSeconds: number;
  /** luminance-weighted factor per channel for meters: their sum over a neutral share is the gel's loss */
  readonly meterWeights: readonly [number, number, number];
  /** per channel, for the camera's white balance */
  readonly cameraWeights: readonly [number, number, number];
}

export function emitterOf(light: Light): Emitter {
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
    exponent: light.beam.exponent,
    edgeDrop: face.shape === "point" ? 0 : light.beam.edgeDrop,
    distribution: null,
  };
}

/** Luminous energy of one flash, lm.s, from any of the ways in which a plan may give it.
 * Source  plan-format.md, output; guide number: axial intensity = C GN^2 / S with C = 250 */
export function luminousEnergyOf(light: Light): number {
  const o = light.output;
  const m = light.beam.exponent;
  if ("lumenSeconds" in o) return o.lumenSeconds;
  if ("wattSeconds" in o) return o.wattSeconds * o.lumensPerWatt * o.efficiency * 2 ** -o.stopsDown;
  if ("guideNumber" in o) {
    const intensity = ((METER_CONSTANT.flat * o.guideNumber ** 2) / o.iso) * 2 ** -o.stopsDown;
    return (2 * Math.PI * intensity) / (m + 1);
  }
  const { fNumber, iso, distance, receptor } = o.meter;
  const exposure = exposureOfReading(fNumber, iso, METER_CONSTANT[receptor]);
  return exposure / axialExposure(light.face, m, light.beam.edgeDrop, distance, receptor);
}

export function stageLight(light: Light, plan: Plan): StagedLight {
  const white = meterColour(light.kelvin);
  const camera = lightColour(light.kelvin, plan.camera.whiteBalance);
  const gel = light.gel.rgb;
  return {
    name: light.name,
    on: light.on,
    lumenSeconds: luminousEnergyOf(light),
    meterWeights: [0, 1, 2].map((c) => LUMINANCE[c] * white[c] * gel[c]) as [number, number, number],
    cameraWeights: [0, 1, 2].map((c) => camera[c] * gel[c]) as [number, number, number],
  };
}
