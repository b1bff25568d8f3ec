/** The words of test frames: what is read off a photograph, how it stands beside the plan, what is learnt from it.
 * docs/test-frames.md has them for people.
 *
 * Camera axes (right-handed): x to picture right, y up the picture, z out of the picture, toward the camera. Pixels: x to
 * the right from the left edge, y down from the top edge, pixel (i, j) covers i to i + 1, j to j + 1. */
import type { Vec3 } from "../math/index.ts";
import type { Pattern } from "../reading/index.ts";

/** Linear light, row-major from the top, r g b: sRGB primaries (D65), 1 = the level at which a neutral file clips. Values
 * beyond 0 to 1 come from wider colour spaces and are kept. */
export interface LinearPicture {
  readonly width: number;
  readonly height: number;
  readonly rgb: Float32Array;
}

/** What a file was, as far as it matters to what is read. */
export type PhotoKind = "jpeg" | "png" | "tiff" | "webp" | "heic" | "raw preview";

/** A part of the upright full picture, in its pixels. */
export interface PixelBox {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

export interface ChannelShares {
  readonly red: number;
  readonly green: number;
  readonly blue: number;
  /** any of the three */
  readonly any: number;
}

/** Of the whole picture, at its full resolution, in the file's own channels, linearised. */
export interface Tones {
  /** share of pixels at the highest level of a channel */
  readonly clipped: ChannelShares;
  /** share of pixels within a third of a stop of it, clipped ones included */
  readonly near: ChannelShares;
  /** stops from the 99.5th percentile of each channel to clipping; 0 where it clips */
  readonly headroomStops: { readonly red: number; readonly green: number; readonly blue: number };
  /** luminance in tenths of a stop under clipping: [0] is 0 to 0.1 stop under, …, [119] everything darker; shares of pixels */
  readonly histogram: readonly number[];
}

export interface PhotoExif {
  readonly make: string | null;
  readonly model: string | null;
  readonly serial: string | null;
  readonly lens: string | null;
  readonly fNumber: number | null;
  /** seconds */
  readonly shutter: number | null;
  readonly iso: number | null;
  /** mm, and as on 36 x 24 mm */
  readonly focalLength: number | null;
  readonly focalLength35: number | null;
  readonly flash: boolean | null;
  /** as written by the camera, local time: "2026-11-26T10:12:30.25"; null where it is not there */
  readonly takenAt: string | null;
}

/** A photograph, decoded and measured; pure data but for `crop`. */
export interface Photograph {
  readonly name: string;
  readonly kind: PhotoKind;
  /** upright, at full size */
  readonly width: number;
  readonly height: number;
  /** the whole of it, averaged in linear light to at most `WORKING_SIDE` pixels on the longer side */
  readonly picture: LinearPicture;
  /** of each pixel of `picture`: the share of its file pixels with any channel clipped, 0 to 255 */
  readonly clippedShare: Uint8Array;
  readonly tones: Tones;
  readonly colour: {
    /** "sRGB", "Display P3", "Adobe RGB (1998)", or as the profile calls itself */
    readonly profile: string;
    /** nothing in the file says so */
    readonly isAssumed: boolean;
    readonly bits: 8 | 16;
    readonly isGrey: boolean;
  };
  readonly exif: PhotoExif;
  /** what was done on the way, in plain words: "the JPEG inside a raw file, 6000 × 4000" */
  readonly notes: readonly string[];
  /** a part of it in linear light, reduced to at most so many pixels on its longer side; never enlarged */
  crop(box: PixelBox, longSide: number): LinearPicture;
}

/** Longer side of the working copy, pixels. */
export const WORKING_SIDE = 1600;

/** Of the landmark model. */
export const POINTS = 478;

/** A face as a landmark model saw it. */
export interface FoundFace {
  /** x, y, z per point, in pixels of the picture it was looked for in, not rounded; z away from the camera, in the same unit,
   * from the head's middle depth. The first 468 are those of the canonical face, then five of the right iris and five of the
   * left (the first of each its centre). */
  readonly points: Float32Array;
  readonly box: PixelBox;
  /** 0 to 1, as the model gives it */
  readonly score: number;
  /** it was found in a copy with lifted shadows only */
  readonly isLifted: boolean;
}

export interface FaceFinder {
  /** largest first; none is an empty list */
  find(picture: LinearPicture): Promise<FoundFace[]>;
}

/** + azimuth to picture right, + elevation up, from the camera axis; or, in the head's axes, + azimuth to own left. Degrees. */
export interface Angles {
  readonly azimuth: number;
  readonly elevation: number;
}

/** The light on a face as fitted to a picture. */
export interface PhotoLight {
  /** unit, camera axes: where the light comes from; of both together where a second is named */
  readonly from: Vec3;
  readonly fromCamera: Angles;
  readonly inHead: Angles;
  /** so far off it may be, degrees: half of all readings of such pictures lie within two thirds of it */
  readonly uncertaintyDegrees: number;
  /** share of the arriving light (scalar) that comes evenly from all round */
  readonly ambientShare: number;
  /** a second light that explains far more of the picture than one does; null where one is enough */
  readonly second: { readonly fromCamera: Angles; readonly shareOfMain: number } | null;
  /** width of the nose's shadow edge, mm, 10 to 90 %; null where it cannot be told */
  readonly edgeMillimetres: number | null;
  /** the picture's tones are stretched beyond any camera's curve: as those of a file whose levels are light itself are when
   * it is read by the standard curve */
  readonly areLevelsLight: boolean;
  /** why it is less sure than others: "most of the face is in shadow" */
  readonly doubts: readonly string[];
}

/** Part of the curve of a camera's JPEG: what a level in the file stands for. */
export interface ResponseCurve {
  /** stops relative to middle grey for levels 0, 1/64, …, 1 of the file's (decoded as sRGB) linear value, in the square root
   * of it: entry i is for linear level (i / 64) squared; -Infinity is never stored, the lowest is the darkest known */
  readonly stops: readonly number[];
  /** stops from middle grey to where the file clips */
  readonly clippingStops: number;
  /** how many frames it was fitted to, and how far they lie off it, RMS stops */
  readonly frames: number;
  readonly rmsStops: number;
}

/** In iris radii and hours on a clock face drawn on it, 12 on top. */
export interface PhotoCatchlight {
  readonly eye: "left" | "right";
  readonly clock: number;
  readonly shape: "round" | "square" | "strip" | "unclear";
  /** across it, degrees as the light is seen from the eye */
  readonly widthDegrees: number;
}

/** Everything told of one face. Angles in degrees, ratios in stops; null is "cannot tell". */
export interface PhotoFace {
  readonly box: PixelBox;
  readonly confidence: "good" | "low" | "none";
  /** in the head's axes, as in plan-format.md */
  readonly light: Angles | null;
  readonly lightFromCamera: Angles | null;
  readonly uncertaintyDegrees: number | null;
  readonly second: PhotoLight["second"];
  /** turn + to own left, tip + chin up, tilt + to own left shoulder, from facing the lens */
  readonly head: { readonly turn: number; readonly tip: number; readonly tilt: number };
  readonly litSide: "left" | "right" | "even" | null;
  readonly ratioStops: number | null;
  /** half of what it may be off: wide while the camera's curve is not known */
  readonly ratioUncertaintyStops: number | null;
  readonly pattern: Pattern | null;
  readonly between: Pattern | null;
  readonly edgeMillimetres: number | null;
  readonly catchlights: readonly PhotoCatchlight[];
  /** share of visible skin with any channel clipped, and stops from its 99.5th percentile, worst channel, to clipping */
  readonly clippedSkin: number;
  readonly skinHeadroomStops: number | null;
  /** mean of the lit cheek, stops under clipping; what drift and exposure are told by */
  readonly litCheekStops: number | null;
  /** of plain lit skin, linear sRGB, the brightest channel 1: what drift of colour is told by */
  readonly skinColour: readonly [red: number, green: number, blue: number] | null;
  /** backdrop beside the head against the lit cheek, stops */
  readonly backgroundStops: number | null;
  /** for choosing among frames, never for deleting */
  readonly eyes: {
    /** 0 shut, 1 wide open, by the lids; own left and own right */
    readonly open: { readonly left: number | null; readonly right: number | null };
    /** finest detail that is there at the sharper eye: 10 to 90 % width of its steepest edges, full-size pixels */
    readonly edgePixels: number | null;
    /** smear along one direction beyond the other, full-size pixels, and its direction (0 level, 90 upright) */
    readonly motion: { readonly pixels: number; readonly direction: number } | null;
  };
  readonly doubts: readonly string[];
}

/** What `tapemark photo --json` prints of one photograph. */
export interface PhotoReading {
  readonly image: {
    readonly name: string;
    readonly kind: PhotoKind;
    readonly width: number;
    readonly height: number;
    readonly colour: Photograph["colour"];
    readonly clipped: ChannelShares;
    readonly near: ChannelShares;
    readonly headroomStops: Tones["headroomStops"];
    readonly histogram: readonly number[];
    readonly exif: PhotoExif;
    /** null: the camera's curve is not known, tones are taken as the file's standard says */
    readonly response: {
      readonly body: string;
      readonly rmsStops: number;
      /** from middle grey to where its files clip */
      readonly clippingStops: number;
    } | null;
    /** a part along one edge that is darker right across the picture: what a shutter leaves that is too fast for the flash */
    readonly band: {
      readonly edge: "top" | "bottom" | "left" | "right";
      /** share of the picture's height, or width */
      readonly share: number;
      /** how much darker */
      readonly stops: number;
    } | null;
  };
  readonly faces: readonly PhotoFace[];
  readonly warnings: readonly string[];
}

/** One thing of the plan beside what the frame shows. */
export interface ComparedLine {
  readonly what:
    | "exposure"
    | "ratio"
    | "direction"
    | "pattern"
    | "side"
    | "background"
    | "framing"
    | "catchlights";
  readonly planned: string;
  readonly seen: string;
  /** in words, "" where it is as planned */
  readonly difference: string;
  /** stops, degrees or shares, signed: seen minus planned; null where it is no number */
  readonly amount: number | null;
  readonly state: "as planned" | "differs" | "cannot tell";
}

/** Why it differs, likeliest first, each with what would show it and what mends it. */
export interface LikelyCause {
  readonly cause:
    | "power"
    | "distance"
    | "angle"
    | "spill"
    | "ambient"
    | "sync"
    | "misfire"
    | "turned head"
    | "settings";
  /** "the left wall gives it back" */
  readonly why: string;
  /** how to be sure: "a frame with the key switched off" */
  readonly check: string;
  /** a move with an amount: "flag the left wall, or step 30 cm to the right" */
  readonly cure: string;
  /** 0 to 1 among the causes told */
  readonly weight: number;
}

export interface FrameComparison {
  /** one sentence: "as planned, as far as this frame tells: the ratio 0.2 stop lower" */
  readonly summary: string;
  readonly lines: readonly ComparedLine[];
  readonly causes: readonly LikelyCause[];
}

/** How a frame of a run differs from the run's first (or from the one that is kept as its model). */
export interface FrameDrift {
  readonly name: string;
  readonly exposureStops: number | null;
  /** of the skin, mired, + warmer */
  readonly colourMireds: number | null;
  /** of the head, shares of its own height: to picture right and up; and its size */
  readonly aside: number | null;
  readonly up: number | null;
  readonly size: number | null;
  /** in plain words; none where it keeps still */
  readonly flags: readonly string[];
}

/** The fitted face as a surface in the picture: what light, ratio and pattern are read from. Made by `seeFace`. */
export interface SeenFace {
  readonly count: number;
  /** camera axes, metres (scaled so that the face is as large as the mean one); xyz per point */
  readonly positions: Float64Array;
  /** unit, camera axes, outward */
  readonly normals: Float64Array;
  /** one REGION per point, as the figure's */
  readonly regions: Uint8Array;
  /** where it falls in the picture: x, y in its pixels */
  readonly pixels: Float64Array;
  /** m2 that a point stands for */
  readonly areas: Float64Array;
  /** how light skin usually is there: luminance relative to the cheeks' mean (brows, lips, beard area are darker) */
  readonly reflectance: Float64Array;
  /** luminance in the picture there, linear, 1 = clipping; NaN where the camera does not see it */
  readonly luminance: Float64Array;
  /** 0 where it is not seen, clipped, hidden by hair or otherwise not to be trusted; 1 for plain skin seen squarely */
  readonly weights: Float64Array;
  readonly triangles: Uint32Array;
  /** 3 x 3 row-major: head axes (x ahead, y own left, z up) to camera axes */
  readonly cameraFromHead: Float64Array;
  /** of the nose, camera axes as `positions` */
  readonly bridge: Vec3;
  readonly noseTip: Vec3;
  /** pixels of the picture a metre at the face */
  readonly pixelsPerMetre: number;
}
