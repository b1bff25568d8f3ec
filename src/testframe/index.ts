export { findBand } from "./band.ts";
export { calibrate } from "./calibrate.ts";
export { calibrationEdit } from "./calibrate-edit.ts";
export { calibrationFrame } from "./calibrate-frame.ts";
export type * from "./calibrate-types.ts";
export {
  calibrationLines,
  leftOutLines,
  lightLine,
  nextLine,
  restLine,
  roomLine,
} from "./calibrate-words.ts";
export * from "./camera-body.ts";
export { type CatchlightCue, lightFromCatchlight } from "./catch-read.ts";
export { compareFrame } from "./compare.ts";
export { matchFaces } from "./compare-match.ts";
export type { ComparedFrame } from "./compare-observed.ts";
export { placeOf as facePlaceOf } from "./compare-planned.ts";
export { driftOf } from "./drift.ts";
export { readEyes } from "./eyes-read.ts";
export { type FaceOptions, readPhotoFace } from "./face-read.ts";
export { makeFaceFinder } from "./find-faces.ts";
export { FACE_ROW, type FaceNets, MESH_POINTS, NET_SIDE } from "./find-nets.ts";
export { fitHead, type HeadFit } from "./head-fit.ts";
export { type ReadProfile, readProfile } from "./icc-profile.ts";
export * from "./icc-space.ts";
export { readLight } from "./light-read.ts";
export { type Look, lookFrom } from "./look.ts";
export * from "./photo-names.ts";
export * from "./photo-words.ts";
export { plainText } from "./plain-text.ts";
export { readPhotograph } from "./read-photo.ts";
export * from "./response.ts";
export { applyResponse, inSceneLight, stopsOfLevel } from "./response-apply.ts";
export { type CardLevel, cardLevel, exposureStops } from "./response-card.ts";
export { type SeeOptions, seeFace } from "./surface.ts";
export { measureTones } from "./tones.ts";
export * from "./tones-pixels.ts";
export { reducePixels } from "./tones-reduce.ts";
export { uprightSize } from "./tones-upright.ts";
export * from "./types.ts";
