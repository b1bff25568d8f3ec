/** A photograph of the plan as it stands, as far as calibrating asks of it. */
import type { Plan } from "../plan/index.ts";
import type { CalibrationFrame } from "./calibrate-types.ts";
import type { PhotoFace, PhotoReading } from "./types.ts";

/** Aperture and ISO are the file's, or the plan's where it does not say. Null where the face tells neither exposure nor ratio. */
export function calibrationFrame(
  plan: Plan,
  person: number,
  { image }: Pick<PhotoReading, "image">,
  face: PhotoFace,
): CalibrationFrame | null {
  const { litCheekStops, litSide, ratioStops, ratioUncertaintyStops } = face;
  if (litSide === null || (litCheekStops === null && ratioStops === null)) return null;
  return {
    name: image.name,
    person,
    face: { litCheekStops, litSide, ratioStops, ratioUncertaintyStops },
    fNumber: image.exif.fNumber ?? plan.camera.fNumber,
    iso: image.exif.iso ?? plan.camera.iso,
    hasCurve: image.response !== null,
  };
}
