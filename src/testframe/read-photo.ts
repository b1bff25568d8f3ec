/** A photograph read whole: its tones, the faces in it, the light on each. */
import { findBand } from "./band.ts";
import type { KnownBody } from "./camera-body.ts";
import { readEyes } from "./eyes-read.ts";
import { readPhotoFace } from "./face-read.ts";
import { readLight } from "./light-read.ts";
import { foundNear, moved } from "./read-near.ts";
import { inSceneLight } from "./response-apply.ts";
import { skinColour } from "./skin-colour.ts";
import { seeFace } from "./surface.ts";
import type {
  FaceFinder,
  FoundFace,
  PhotoFace,
  Photograph,
  PhotoReading,
  PixelBox,
  ResponseCurve,
} from "./types.ts";

export interface PhotoOptions {
  /** null: tones are taken as the file's standard says */
  readonly known?: KnownBody | null;
}

/** In a group each is read; of a crowd the largest. */
const MOST_FACES = 12;

/** Errors  none of its own: what cannot be told is null, and why stands among doubts and warnings */
export async function readPhotograph(
  photo: Photograph,
  finder: FaceFinder,
  { known = null }: PhotoOptions = {},
): Promise<PhotoReading> {
  // looked for in the file as it is, measured in the light of the scene
  const scene = known ? inSceneLight(photo, known.curve) : photo;
  const found = await finder.find(photo.picture);
  const faces: PhotoFace[] = [];
  for (const face of found.slice(0, MOST_FACES))
    faces.push(readFace(scene, await foundNear(photo, face, finder), known?.curve ?? null));
  const { name, kind, width, height, colour, exif, tones } = photo;
  const response = known && {
    body: known.body,
    rmsStops: known.curve.rmsStops,
    clippingStops: known.curve.clippingStops,
  };
  return {
    image: { name, kind, width, height, colour, ...tones, exif, response, band: findBand(photo.picture) },
    faces,
    warnings: [...photo.notes, ...faceWarnings(found.length)],
  };
}

function faceWarnings(count: number): string[] {
  if (count === 0) return ["no face was found"];
  return count > MOST_FACES ? [`${count} faces were found; the ${MOST_FACES} largest are read`] : [];
}

/** `photo` in scene light, where the camera's curve is known. */
function readFace(photo: Photograph, face: FoundFace, curve: ResponseCurve | null): PhotoFace {
  const { picture, clippedShare } = photo;
  const grown = photo.width / picture.width;
  const seen = seeFace(picture, clippedShare, face, { focalLengthPixels: focalPixels(photo) });
  const light = readLight(seen);
  const read = readPhotoFace(photo, face, seen, light, { curve });
  return {
    ...read,
    box: wholePixels(moved(read.box, grown, 0, 0)),
    skinColour: skinColour(picture, seen),
    eyes: readEyes(photo, face),
  };
}

function wholePixels({ left, top, width, height }: PixelBox): PixelBox {
  const [x, y] = [Math.round(left), Math.round(top)];
  return { left: x, top: y, width: Math.round(left + width) - x, height: Math.round(top + height) - y };
}

/** Millimetres that the focal length as on 36 x 24 mm is told for: the diagonal. Source  CIPA DCG-001 */
const DIAGONAL_35 = Math.hypot(36, 24);

/** Of the working copy; null where the file does not say. Of a picture that was cropped afterwards it is too short, by the
 * crop: how far that turns a head has not been measured. */
function focalPixels({ exif, picture }: Photograph): number | null {
  const focal = exif.focalLength35;
  return focal === null ? null : (focal / DIAGONAL_35) * Math.hypot(picture.width, picture.height);
}
