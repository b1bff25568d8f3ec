/** Photographs made up from readings, for tests of what is compared with them. */
import type { Plan } from "../../plan/index.ts";
import type { TryReading } from "../../reading/index.ts";
import { plannedFace } from "../compare-planned.ts";
import type { PhotoFace, PhotoReading } from "../types.ts";
import { NO_EXIF } from "./no-exif.ts";

export const STILL = { left: 400, top: 600, width: 300, height: 400 };
export const CLIPPING = 2.5;

/** A photograph that shows just what a reading says, with the doubt that such readings have. */
export function photoOf(
  plan: Plan,
  reading: TryReading,
  settings: Partial<PhotoReading["image"]["exif"]> = {},
): PhotoReading {
  const { litCheekStops, head } = plannedFace(plan, 0, reading);
  const { azimuth, elevation } = reading.light;
  const face: PhotoFace = {
    box: STILL,
    confidence: "good",
    light: azimuth === null || elevation === null ? null : { azimuth, elevation },
    lightFromCamera: null,
    uncertaintyDegrees: 5,
    second: null,
    head,
    litSide: reading.litSide,
    ratioStops: reading.ratioStops,
    ratioUncertaintyStops: 0.15,
    pattern: reading.pattern,
    between: reading.between,
    edgeMillimetres: null,
    catchlights: [],
    clippedSkin: 0,
    skinHeadroomStops: null,
    litCheekStops: CLIPPING - litCheekStops,
    skinColour: [1, 0.7, 0.5],
    backgroundStops: reading.backgroundStops,
    eyes: { open: { left: null, right: null }, edgePixels: null, motion: null },
    doubts: [],
  };
  return {
    image: {
      name: "frame.jpg",
      kind: "jpeg",
      width: 2000,
      height: 3000,
      colour: { profile: "sRGB", isAssumed: false, bits: 8, isGrey: false },
      clipped: { red: 0, green: 0, blue: 0, any: 0 },
      near: { red: 0, green: 0, blue: 0, any: 0 },
      headroomStops: { red: 1, green: 1, blue: 1 },
      histogram: [],
      exif: { ...NO_EXIF, ...settings },
      response: { body: "a body", rmsStops: 0.03, clippingStops: CLIPPING },
      band: null,
    },
    faces: [face],
    warnings: [],
  };
}
