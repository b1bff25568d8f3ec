/** Lights mirrored in the eyes of a photographed face, and where they say the light comes from. */
import { angleBetween, type Vec3, writeUnit } from "../math/index.ts";
import { type EyeCrop, eyeCrop } from "./catch-eye.ts";
import { gazeOf, mirroredFrom, onIris, widthSeen } from "./catch-mirror.ts";
import { ACROSS, shapeOf } from "./catch-shape.ts";
import { findSpots, type Spot } from "./catch-spots.ts";
import type { FoundFace, PhotoCatchlight, Photograph, SeenFace } from "./types.ts";

/** Where the brightest catchlight says that its light stands: a cue beside the light on the skin. */
export interface CatchlightCue {
  /** unit, camera axes */
  readonly from: Vec3;
  readonly uncertaintyDegrees: number;
}

interface SpotOnIris {
  readonly eye: EyeCrop;
  readonly spot: Spot;
  /** iris radii, picture right and up */
  readonly at: readonly [number, number];
}

const HOUR = 30;
const DEGREE = Math.PI / 180;
/** Nearer to the middle than this, in iris radii, a clock has no hand worth reading. */
const MIDDLE = 0.04;

/** Brightest first in each eye; none where eyes are shut or too small. */
export function readCatchlights(photo: Photograph, face: FoundFace, seen: SeenFace): PhotoCatchlight[] {
  const { gaze, spots } = look(photo, face, seen);
  return spots.flatMap(({ eye, spot, at }) => {
    const half = (ACROSS / 2) * (spot.long / eye.radius);
    const ends = [half * Math.cos(spot.turn), -half * Math.sin(spot.turn)] as const;
    const widthDegrees = widthSeen(gaze, at, ends);
    if (widthDegrees === null) return [];
    const [across, up] = at;
    const hours = Math.hypot(across, up) < MIDDLE ? 12 : Math.atan2(across, up) / DEGREE / HOUR;
    const clock = hours <= 0 ? hours + 12 : hours;
    return [{ eye: eye.side, clock, shape: shapeOf(eye, spot), widthDegrees }];
  });
}

/** Of the middle of an iris, in iris radii, and of which way the eye looks, degrees: standard errors, measured on
 * rendered eyes; a mirror turns what it mirrors by twice its own turn. */
const IRIS_ERROR = 0.06;
const GAZE_ERROR = 4;

/** Null without a catchlight, and where the two eyes tell different lights. */
export function lightFromCatchlight(
  photo: Photograph,
  face: FoundFace,
  seen: SeenFace,
): CatchlightCue | null {
  const { gaze, spots } = look(photo, face, seen);
  const brightest = (["left", "right"] as const).flatMap(
    (side) => spots.find((s) => s.eye.side === side) ?? [],
  );
  const ways = brightest.map(({ at }) => mirroredFrom(gaze, at[0], at[1])).filter((way) => way !== null);
  if (ways.length === 0) return null;
  const { irisRadius, corneaRadius } = IRIS;
  const ofIris = (2 * IRIS_ERROR * irisRadius) / corneaRadius / DEGREE;
  // where the cornea's middle lies goes with the gaze, by what it lies behind the iris
  const ofGaze = 2 * GAZE_ERROR * (Math.sqrt(corneaRadius ** 2 - irisRadius ** 2) / corneaRadius);
  const expected = Math.hypot(ofIris / Math.sqrt(ways.length), ofGaze);
  const apart = ways.length > 1 ? angleBetween(ways[0], ways[1]) / DEGREE : 0;
  if (apart > 4 * expected) return null;
  const sum = [0, 1, 2].map((k) => ways.reduce((all, way) => all + way[k], 0));
  const from: [number, number, number] = [0, 0, 0];
  writeUnit(from, sum);
  return { from, uncertaintyDegrees: Math.hypot(expected, apart / 2) };
}

/** Millimetres; published-checks section 10. */
const IRIS = { irisRadius: 5.9, corneaRadius: 7.8 } as const;

function look(photo: Photograph, face: FoundFace, seen: SeenFace): { gaze: Vec3; spots: SpotOnIris[] } {
  const eyes = (["left", "right"] as const).flatMap((side) => eyeCrop(photo, face, side) ?? []);
  if (eyes.length === 0) return { gaze: [0, 0, 1], spots: [] };
  const gaze = gazeOf(
    photo,
    face,
    seen,
    eyes.map(({ side, full }) => ({ side, at: full })),
  );
  const all = eyes.flatMap((eye) =>
    findSpots(eye).map((spot) => ({ eye, spot, at: onIris(eye, spot.x, spot.y) })),
  );
  return { gaze, spots: all.filter((one) => isSure(one, all)) };
}

/** In an iris of so many full-size pixels of radius a spot stands for itself. */
const LARGE_RADIUS = 10;
/** In a smaller one the other eye must show it too, so near to the same place, iris radii: a wet lid and the skin under it
 * look much like a light there, but not alike in both eyes. */
const ALIKE = 0.35;

function isSure({ eye, at }: SpotOnIris, all: readonly SpotOnIris[]): boolean {
  return (
    eye.radius / eye.scale >= LARGE_RADIUS ||
    all.some((o) => o.eye.side !== eye.side && Math.hypot(o.at[0] - at[0], o.at[1] - at[1]) < ALIKE)
  );
}
