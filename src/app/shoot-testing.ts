/** Frames as a desk would tell of them, for tests. */
import type { PhotoFace } from "../testframe/index.ts";
import type { DeskState, TestFrame } from "../workbench/index.ts";

export const FACE: PhotoFace = {
  box: { left: 300, top: 200, width: 200, height: 280 },
  confidence: "good",
  light: { azimuth: 40, elevation: 30 },
  lightFromCamera: { azimuth: 44, elevation: 31 },
  uncertaintyDegrees: 5,
  second: null,
  head: { turn: -4, tip: 0, tilt: 0 },
  litSide: "left",
  ratioStops: 2.1,
  ratioUncertaintyStops: 0.4,
  pattern: "rembrandt",
  between: null,
  edgeMillimetres: 14,
  catchlights: [
    { eye: "left", clock: 2, shape: "round", widthDegrees: 30 },
    { eye: "right", clock: 2.1, shape: "round", widthDegrees: 30 },
  ],
  clippedSkin: 0,
  skinHeadroomStops: 1.1,
  litCheekStops: 2.4,
  backgroundStops: -3.5,
  eyes: { open: { left: 0.9, right: 0.9 }, edgePixels: 2, motion: { pixels: 0.3, direction: 0 } },
  skinColour: [1, 0.7, 0.5],
  doubts: [],
};

export function frameOf(number: number, faces: readonly PhotoFace[] = [FACE]): TestFrame {
  const none = { red: 0, green: 0, blue: 0 };
  return {
    id: `f${number}`,
    name: `IMG_${number}.JPG`,
    arrivedAt: new Date(Date.UTC(2026, 10, 26, 10, 0, number)).toISOString(),
    reading: {
      image: {
        name: `IMG_${number}.JPG`,
        kind: "jpeg",
        width: 800,
        height: 1200,
        colour: { profile: "sRGB", isAssumed: false, bits: 8, isGrey: false },
        clipped: { ...none, any: 0 },
        near: { ...none, any: 0 },
        headroomStops: { red: 0.9, green: 1.4, blue: 1.9 },
        histogram: new Array(120).fill(1 / 120),
        exif: {
          make: null,
          model: null,
          serial: null,
          lens: null,
          fNumber: 8,
          shutter: 1 / 160,
          iso: 100,
          focalLength: 135,
          focalLength35: null,
          flash: null,
          takenAt: "2026-11-26T10:12:30.25",
        },
        response: null,
        band: null,
      },
      faces,
      warnings: [],
    },
  };
}

export function deskOf(version: number, ...frames: readonly TestFrame[]): DeskState {
  return { version, folder: null, folderProblem: null, frames, pending: [] };
}
