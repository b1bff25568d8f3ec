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
  byLight: Record<string, Share>;
  vector: { bearing: number | null; tilt: number | null; luxSeconds: number };
  scalarLuxSeconds: number;
  vectorScalarRatio: number | null;
}

export type Pattern = "flat" | "butterfly" | "loop" | "rembrandt" | "split" | "rim" | "under" | "dark";

export interface Catchlight {
  eye: "left" | "right";
  light: string;
  /** hours on a clock face drawn on the iris as the camera sees it, 12 on top */
  clock: number;
  visible: boolean;
}

export interface FaceReading {
  pattern: Pattern;
  litSide: "left" | "right" | "even";
  litCheek: number;
  shadowCheek: number;
  ratioStops: number | null;
  side: "broad" | "short" | "square";
  light: { azimuth: number | null; elevation: number | null };
  vectorScalarRatio: number | null;
  shadowEdgeMillimetres: number | null;
  nearest: { pattern: Pattern; turnDegrees: number | null; raiseDegrees: number | null } | null;
  catchlights: Catchlight[];
}

export interface PersonReading {
  name: string;
  face: FaceReading;
}

export interface CameraReading {
  clipped: { skin: number; frame: number };
  headroomStops: number | null;
  backgroundStops: number | null;
}

export interface Warning {
  path: string;
  state: string;
  margin: string;
  remedy: string;
}

export interface PlanReading {
  meters: MeterReading[];
  people: PersonReading[];
  camera: CameraReading;
  warnings: Warning[];
}

/** Power and direction of light over a horizontal grid, the chosen person taken away.
 * Row-major, x fastest, y from the near side; cell centres at (x0 + i dx, y0 + j dy). */
export interface FieldMap {
  height: number;
  x0: number;
  y0: number;
  dx: number;
  dy: number;
  columns: number;
  rows: number;
  /** stops from the same reading at the chosen person's nose bridge; -Infinity where nothing arrives */
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
