/** A drawing at true scale: plain data in metres on the paper, which the browser draws by hand and the sheet on paper.
 *
 * Floor   across = x (right), up = y (into the set)
 * Side    across = y (near wall at the left), up = z: as seen from the right wall */

export type View = "floor" | "side";
export type PaperPoint = readonly [across: number, up: number];

export type ShapeKind =
  | "room"
  | "backdrop"
  | "front" // of a light, its outline as it is turned
  | "axis" // from the front's centre to what it aims at
  | "panel"
  | "body"
  | "head"
  | "nose" // where the nose points
  | "mark" // where the person stands
  | "tape" // a mark of its own on the floor
  | "camera"
  | "field" // an edge of what the lens sees
  | "meter"
  | "hold" // on a sheet: round what may be stood on
  | "holdCircle";

export interface Shape {
  readonly kind: ShapeKind;
  /** path of what it belongs to: "lights[0]", "camera", "room" */
  readonly owner: string;
  readonly points: readonly PaperPoint[];
  readonly closed: boolean;
  /** a light that is off */
  readonly off: boolean;
  /** how near its owner's middle is to the reader, metres: what is nearer is drawn later */
  readonly depth: number;
}

export interface Label {
  readonly owner: string;
  readonly text: string;
  /** the middle of what it names */
  readonly at: PaperPoint;
  /** bounds of what it names: a label stands clear of them */
  readonly clear: Extent;
}

export interface Extent {
  readonly across0: number;
  readonly across1: number;
  readonly up0: number;
  readonly up1: number;
}

export interface Drawing {
  readonly view: View;
  readonly shapes: readonly Shape[];
  readonly labels: readonly Label[];
  /** the room, or in open space everything that stands there with some air */
  readonly extent: Extent;
}

export function boundsOf(points: Iterable<PaperPoint>): Extent | null {
  let across0 = Infinity;
  let across1 = -Infinity;
  let up0 = Infinity;
  let up1 = -Infinity;
  for (const [across, up] of points) {
    across0 = Math.min(across0, across);
    across1 = Math.max(across1, across);
    up0 = Math.min(up0, up);
    up1 = Math.max(up1, up);
  }
  return across0 > across1 ? null : { across0, across1, up0, up1 };
}
