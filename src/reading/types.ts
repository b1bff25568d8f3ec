/** What is read off a plan: the object that `tapemark read --json` prints. Fields as in the plan format. */

export interface Share {
  /** lux-seconds that came straight from the light (or through a scrim) */
  direct: number;
  /** lux-seconds that were reflected at least once */
  bounced: number;
}

export interface MeterReading {
  name: string;
  luxSeconds: number;
  fNumber: number;
  /** engraved stop plus tenths; "no reading" where nothing arrives */
  fStops: string;
  /** standard deviation, from what is not known of lights and room; null where nothing arrives */
  uncertaintyStops: number | null;
  byLight: Record<string, Share>;
  vector: { bearing: number | null; tilt: number | null; luxSeconds: number };
  scalarLuxSeconds: number;
  vectorScalarRatio: number | null;
}

export type Pattern = "flat" | "butterfly" | "loop" | "rembrandt" | "split" | "rim" | "under" | "dark";

export interface Catchlight {
  eye: "left" | "right";
  /** name of the light or panel, or "near wall", "far wall", "left wall", "right wall", "floor", "ceiling", "backdrop" */
  light: string;
  kind: "light" | "panel" | "wall";
  /** hours on a clock face drawn on the iris as the camera sees it, 12 on top; of the middle of what shows */
  clock: number;
  visible: boolean;
  /** of the whole reflection on the cornea, as the camera sees it: across the picture and up it */
  widthMillimetres: number;
  heightMillimetres: number;
  /** the same in pixels of the frame at `CATCHLIGHT_FRAME_WIDTH` */
  widthPixels: number;
  heightPixels: number;
  /** the reflection's outline round the middle of the iris, in iris radii: picture right and up */
  outline: [number, number][];
}

/** Where lights fall on the lenses, as the camera sees them. */
export interface GlassesReading {
  /** of each light and lens that meet */
  reflections: {
    eye: "left" | "right";
    light: string;
    kind: "light" | "panel";
    /** share of the lens that the reflection covers, and whether it covers the pupil behind it */
    share: number;
    overPupil: boolean;
  }[];
  /** the smallest change of each kind that clears both lenses of lights; null where nothing lies on them or none does */
  clears: { change: "turn" | "raise" | "lightHeight"; amount: number; light: string | null } | null;
}

/** One way to another pattern: the smallest step to that side that reaches it. */
export interface Margin {
  change: "turn" | "raise" | "lightHeight" | "driftAside" | "driftAhead";
  /** signed: degrees of turn (+ own left) and raise (+ chin up); centimetres of the main light's height (+ up), of the
   * person to their own left (driftAside +) and to where they face (driftAhead +), the light kept */
  amount: number;
  unit: "degrees" | "centimetres";
  /** the light that rises or sinks; null for the other changes */
  light: string | null;
  pattern: Pattern;
}

/** Millimetres from the tip of the nose, seen from straight ahead: + to the person's own left, + up. */
export interface NoseShadow {
  leftMillimetres: number;
  upMillimetres: number;
}

export interface FaceReading {
  pattern: Pattern;
  /** the other name where the pattern changes when the limit between lit and shadow moves by a quarter of a stop */
  between: Pattern | null;
  litSide: "left" | "right" | "even";
  litCheek: number;
  shadowCheek: number;
  ratioStops: number | null;
  /** standard deviations of lit cheek and ratio, from what is not known of lights and room; null where they are dark */
  litCheekUncertaintyStops: number | null;
  ratioUncertaintyStops: number | null;
  /** the ratio as n:1 in both conventions: lit to shadow side, and key alone to fill (n - 1); null where it has no number */
  ratio: { litToShadow: number | null; keyToFill: number | null };
  side: "broad" | "short" | "square";
  light: { azimuth: number | null; elevation: number | null };
  vectorScalarRatio: number | null;
  /** in words, never a verdict; null where nothing arrives */
  spread: Spread | null;
  shadowEdgeMillimetres: number | null;
  /** where the tip of the nose's shadow from the light that gives the face most falls; null where it keeps to the nose
   * or runs on into the dark side */
  noseShadow: NoseShadow | null;
  nearest: { pattern: Pattern; turnDegrees: number | null; raiseDegrees: number | null } | null;
  /** every way tried; empty in a coarse reading */
  margins: Margin[];
  catchlights: Catchlight[];
  /** null for somebody without glasses */
  glasses: GlassesReading | null;
}

/** How the light arrives at the bridge of the nose, told by the vector/scalar ratio. */
export type Spread = "from one place" | "mostly from one side" | "wrapped" | "from all round";

export interface PersonReading {
  name: string;
  face: FaceReading;
}

/** Share of visible skin that clips, and how far its brightest (99.5th percentile) stays below. */
export interface SkinRoom {
  clippedSkin: number;
  headroomStops: number | null;
}

export interface CameraReading {
  clipped: { skin: number; frame: number };
  headroomStops: number | null;
  /** the same for skin without its glints: what make-up that dulls it would gain */
  withoutShine: SkinRoom;
  /** each channel of skin by itself, glints included: warm light on warm skin clips in red long before it looks too bright */
  channels: { red: SkinRoom; green: SkinRoom; blue: SkinRoom };
  backgroundStops: number | null;
}

export interface Warning {
  /** light: what was read; place: where things stand, which the cautions tell as well */
  about: "light" | "place";
  path: string;
  state: string;
  margin: string;
  remedy: string;
}

/** How evenly several people are lit; null for fewer than two. */
export interface GroupReading {
  /** from the least to the most lit face, by their lit cheeks; null where a face is dark */
  spreadStops: number | null;
  brightest: string;
  darkest: string;
  /** who stands in whose light: share of a light on a face that this person takes away, from 0.05 up */
  shading: { light: string; by: string; on: string; share: number }[];
}

export interface PlanReading {
  meters: MeterReading[];
  people: PersonReading[];
  group: GroupReading | null;
  camera: CameraReading;
  warnings: Warning[];
}

/** A part of the picture, as shares of its width from the left and of its height from the top. */
export interface PictureRegion {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** What a map is asked for. */
export interface MapRequest {
  /** floor: level, at a height; side: upright, into the set, at a distance from the left wall */
  plane: "floor" | "side";
  /** metres: the height above the floor, or the distance from the left wall (x) */
  at: number;
  /** index of the person who is taken away for the map */
  person: number;
  /** what 0 stops stands for: the same reading at a person's face or at a meter's place */
  reference: { kind: "person" | "meter"; index: number };
}

/** Power and direction of light over a grid in one plane, the chosen person taken away. Across is x on the floor and y
 * from the side; up is y on the floor and z from the side. Row-major, across fastest, from the lower left; cell centres
 * at (across0 + i dAcross, up0 + j dUp). */
export interface FieldMap {
  plane: "floor" | "side";
  /** metres, as asked */
  at: number;
  across0: number;
  up0: number;
  dAcross: number;
  dUp: number;
  columns: number;
  rows: number;
  /** stops from the same reading at the reference; -Infinity where nothing arrives */
  stops: Float32Array;
  /** what a dome turned to where the light comes from would read there: lux-seconds */
  luxSeconds: Float32Array;
  /** where the light comes from, degrees; NaN where nothing arrives */
  bearing: Float32Array;
  tilt: Float32Array;
  vectorScalarRatio: Float32Array;
  /** the reading that 0 stops stands for, as engraved stop plus tenths */
  referenceFStops: string;
}
