import type { PhotoExif } from "../types.ts";

/** A file that says nothing. */
export const NO_EXIF: PhotoExif = {
  make: null,
  model: null,
  serial: null,
  lens: null,
  fNumber: null,
  shutter: null,
  iso: null,
  focalLength: null,
  focalLength35: null,
  flash: null,
  takenAt: null,
};
