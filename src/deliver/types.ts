import type { FocusPlace, PictureRegion } from "../reading/index.ts";

export interface Size {
  readonly width_m: number;
  readonly height_m: number;
}

export interface Pixels {
  readonly width: number;
  readonly height: number;
}

/** What makes a smear: `pixel` is the file's own grid, `together` all of them at the eye that is focused on. */
export type SmearKind = "pixel" | "focus" | "motion" | "diffraction" | "together";

/** How wide a point of the scene becomes in the finished picture. */
export interface Smear {
  readonly kind: SmearKind;
  /** "focus at the nearer ear" */
  readonly what: string;
  /** across, in the finished picture */
  readonly mm: number;
  readonly sensor_mm: number;
  /** of the file, as seen at 100 %; null where its pixels are not known */
  readonly filePixels: number | null;
  /** over what the eye tells apart from where people stand */
  readonly timesEye: number;
  /** from here on it is not told apart */
  readonly unseenFrom_m: number;
  /** the largest print in which it is not told apart from where people stand; null where no size shows it */
  readonly largest: Size | null;
  /** where in the picture, for focus; shares of the whole picture */
  readonly at: {
    readonly place: FocusPlace;
    readonly person: number;
    readonly x: number;
    readonly y: number;
  } | null;
  /** what would bring it down to what the eye tells apart; null where it is there, or where nothing of the kind does */
  readonly cure: SmearCure | null;
}

export type SmearCure =
  | { readonly kind: "aperture"; readonly fNumber: number; readonly stops: number }
  | { readonly kind: "time"; readonly of: "flash" | "shutter"; readonly seconds: number };

/** What the printer asks against what there is. */
export interface Asked {
  readonly ppi: number;
  /** across and down, for all of the print */
  readonly pixels: Pixels;
  /** each way, from the file to what is asked; under 1 it is made smaller. Null where the file's pixels are not known */
  readonly enlarge: number | null;
  /** the largest print that the file fills as asked */
  readonly largest: Size | null;
}

export interface FinalUse {
  readonly use: string;
  readonly print: Size;
  /** the nearest that people look from, and whether the plan says so */
  readonly away_m: number;
  readonly isAwayGiven: boolean;
  /** the part of the picture that is used */
  readonly used: PictureRegion;
  /** pixels of the file that are used; null where the file's are not known */
  readonly pixels: Pixels | null;
  readonly ppi: number | null;
  /** how many an inch the eye tells apart from there, and how wide one is */
  readonly eyePpi: number;
  readonly eye_mm: number;
  /** print over sensor */
  readonly enlargement: number;
  readonly asked: Asked | null;
  readonly smears: readonly Smear[];
  /** of what must stay sharp, and whether the plan says so */
  readonly speed_m_s: number;
  readonly isSpeedGiven: boolean;
  /** lights that are on and of whose flash the duration is not known */
  readonly unknownFlashes: readonly string[];
  /** the person whose nearer eye is focused on; null where nobody can be */
  readonly focusOn: string | null;
  /** where that eye is; shares of the whole picture */
  readonly focusAt: readonly [x: number, y: number] | null;
}
