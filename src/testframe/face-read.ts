/** Everything told of one face in a photograph but its eyes: the light, the cheeks, the pattern, the skin, and what
 * stands behind. */
import { encodeSrgb } from "../photometry/index.ts";
import { readCatchlights } from "./catch-read.ts";
import { backdropLuminance } from "./face-background.ts";
import { BLACK, readFaceCheeks } from "./face-cheeks.ts";
import { trustIn } from "./face-doubts.ts";
import { faceExposure } from "./face-exposure.ts";
import { headAngles } from "./face-head.ts";
import { readFacePattern } from "./face-pattern.ts";
import { isGreyFace } from "./face-shine.ts";
import { readSkin } from "./face-skin.ts";
import type { FoundFace, PhotoFace, Photograph, PhotoLight, ResponseCurve, SeenFace } from "./types.ts";

export interface FaceOptions {
  /** the camera's curve, where it is known and has been undone: `photo` and `seen` are in scene light */
  readonly curve?: Pick<ResponseCurve, "rmsStops"> | null;
}

const LINEAR_LEVELS = "the file's tones look as if its levels were light itself, and are taken so";

/** `face` in pixels of `photo.picture`, `seen` and `light` made of them. Whoever composes adds the eyes and the colour of the skin.
 * Errors  none; what cannot be told is null, and why is among the doubts */
export function readPhotoFace(
  photo: Photograph,
  face: FoundFace,
  seen: SeenFace,
  light: PhotoLight | null,
  { curve = null }: FaceOptions = {},
): Omit<PhotoFace, "eyes" | "skinColour"> {
  // colour files without a curve of their own are next to unknown; grey ones of measurements are not
  const mayBeLinear = !curve && photo.colour.isAssumed && (light?.areLevelsLight ?? false);
  const isLinear = mayBeLinear && isGreyFace(seen, photo.picture);
  // read by the standard curve its levels are bent once too often: bent back they are the light
  const scene = isLinear ? encodeSrgb : asIs;
  const head = headAngles(seen.cameraFromHead);
  const exposure = faceExposure(seen, photo.picture, light, scene);
  const trust = trustIn(face, head, light, exposure);
  const cheeks = readFaceCheeks(exposure, curve);
  const isNone = trust.confidence === "none";
  const { pattern, between } = isNone ? { pattern: null, between: null } : readFacePattern(exposure);
  const backdrop = backdropLuminance(photo.picture, face, scene);
  const ofBackdrop =
    backdrop !== null && backdrop < BLACK
      ? ["the backdrop is as dark as the picture's black: it lies at least so far under the cheek"]
      : [];
  const { litCheek } = cheeks;
  return {
    box: face.box,
    confidence: trust.confidence,
    light: light && !isNone ? light.inHead : null,
    lightFromCamera: light && !isNone ? light.fromCamera : null,
    uncertaintyDegrees: light && !isNone ? light.uncertaintyDegrees : null,
    second: isNone ? null : (light?.second ?? null),
    head,
    litSide: isNone ? null : cheeks.litSide,
    ratioStops: isNone ? null : cheeks.ratioStops,
    ratioUncertaintyStops: isNone ? null : cheeks.ratioUncertaintyStops,
    pattern,
    between,
    edgeMillimetres: isNone ? null : (light?.edgeMillimetres ?? null),
    catchlights: isNone ? [] : readCatchlights(photo, face, seen),
    ...readSkin(photo, seen, scene),
    litCheekStops: litCheek === null ? null : -Math.log2(litCheek),
    backgroundStops: backdrop !== null && litCheek ? Math.log2(Math.max(backdrop, BLACK) / litCheek) : null,
    doubts: [
      ...new Set([
        ...trust.doubts,
        ...(light?.doubts ?? []),
        ...(isLinear ? [LINEAR_LEVELS] : []),
        ...cheeks.doubts,
        ...ofBackdrop,
      ]),
    ],
  };
}

const asIs = (level: number) => level;
