/** The words of calibrating. Everything in stops; uncertainties are standard deviations. */
import type { Known, ReadingPlace } from "../plan/index.ts";
import type { KeepGoing, Memory, Quality } from "../reading/index.ts";
import type { PhotoFace } from "./types.ts";

/** A test frame of the plan as it stands, with all lights that are on. */
export interface CalibrationFrame {
  readonly name: string;
  /** whose face it is, by place in the plan's people */
  readonly person: number;
  readonly face: Pick<PhotoFace, "litCheekStops" | "ratioStops" | "ratioUncertaintyStops" | "litSide">;
  readonly fNumber: number;
  readonly iso: number;
  /** the camera's curve has been measured */
  readonly hasCurve: boolean;
}

export interface CalibrateOptions {
  readonly frames?: readonly CalibrationFrame[];
  readonly quality?: Quality;
  readonly memory?: Memory;
  readonly keepGoing?: KeepGoing;
}

export interface CalibratedBeam {
  readonly exponentBefore: number;
  readonly exponentAfter: number;
  /** of what its axis gets at the same energy */
  readonly uncertaintyStops: number;
}

export interface CalibratedLight {
  readonly name: string;
  /** over what its output says */
  readonly before: Known;
  readonly after: Known;
  /** how many readings it has a hand in, by at least a tenth of what they read */
  readonly readings: number;
  /** null where readings do not tell how it spreads */
  readonly beam: CalibratedBeam | null;
  /** what was known of it before does not go with the readings and was left out */
  readonly isContradicted: boolean;
}

export interface CalibratedRoom {
  readonly before: Known;
  readonly after: Known;
}

export interface CheckedReading {
  readonly name: string;
  readonly kind: "reading" | "lit cheek" | "ratio";
  /** "all", or the name of the light that flashed alone */
  readonly light: string;
  /** read over predicted, stops, before and after; null where nothing arrives in the plan */
  readonly offBefore: number | null;
  readonly offAfter: number | null;
  /** singled out: it cannot be right. In doubt: it and another cannot both be. Not used: the plan cannot tell, see `why` */
  readonly state: "used" | "singled out" | "in doubt" | "not used";
  readonly why: string;
}

/** The reading that would help most. */
export interface NextReading {
  readonly light: string;
  /** name of the plan's meter; null: at `place` */
  readonly meter: string | null;
  readonly place: ReadingPlace;
  /** the meter or the reading whose place it is, and whether it points the other way */
  readonly near: string;
  readonly isTurned: boolean;
  /** what it is for: a light's name, or "bounce" */
  readonly helps: string;
  readonly before: number;
  /** uncertainty of what it helps once it is made */
  readonly after: number;
}

export interface Calibration {
  readonly lights: readonly CalibratedLight[];
  readonly room: CalibratedRoom | null;
  readonly readings: readonly CheckedReading[];
  /** RMS of what is left between readings that were used and the plan as calibrated; null where none was */
  readonly rmsStops: number | null;
  /** names of lights, and "bounce", that are still a guess */
  readonly unknown: readonly string[];
  readonly next: NextReading | null;
}
