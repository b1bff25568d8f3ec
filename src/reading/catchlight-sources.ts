/** What an eye can mirror: lights' fronts, panels, walls, the backdrop; their rims, and points all over them. */
import {
  cutFace,
  type Emitter,
  type FaceParts,
  type MeshInstance,
  type Quad,
  reach,
  scatterFace,
  WALL_AXES,
} from "../engine/index.ts";
import type { Stage } from "../staging/index.ts";

/** Corners along the rim of a disc, and at least so many along any other. */
const RIM_POINTS = 48;
const ALONG_WALL = 12;

export type SourceKind = "light" | "panel" | "wall";

/** Points along the rim, in order, xyz each. */
export type Rim = readonly (readonly number[])[];

/** Round a light's front; the one point of a bare one. */
export function rimOfFront(e: Emitter): Rim {
  if (e.shape === "point") return [Array.from(e.centre)];
  const at = (x: number, y: number) => [0, 1, 2].map((k) => e.centre[k] + x * e.right[k] + y * e.up[k]);
  if (e.shape === "disc")
    return Array.from({ length: RIM_POINTS }, (_, i) => {
      const a = (2 * Math.PI * i) / RIM_POINTS;
      return at(e.halfWidth * Math.cos(a), e.halfWidth * Math.sin(a));
    });
  const corners: [number, number][] = [];
  if (e.shape === "rectangle") {
    const { halfWidth: w, halfHeight: h } = e;
    corners.push([w, h], [-w, h], [-w, -h], [w, -h]);
  } else {
    // a side lies on top, level
    for (let i = 0; i < e.sides; i++) {
      const a = Math.PI / 2 + ((2 * i + 1) * Math.PI) / e.sides;
      corners.push([reach(e) * Math.cos(a), reach(e) * Math.sin(a)]);
    }
  }
  return alongSides(
    corners.map(([x, y]) => at(x, y)),
    Math.ceil(RIM_POINTS / corners.length),
  );
}

/** Straight sides are mirrored as curves: each is cut into steps. */
function alongSides(corners: Rim, steps: number): Rim {
  const out: number[][] = [];
  corners.forEach((p, i) => {
    const q = corners[(i + 1) % corners.length];
    for (let s = 0; s < steps; s++) {
      const t = s / steps;
      out.push([p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1]), p[2] + t * (q[2] - p[2])]);
    }
  });
  return out;
}

/** Points spread evenly over a front: `parts` of equal area. */
export function pointsOfFront(e: Emitter, count: number): FaceParts {
  return e.shape === "point" ? cutFace(e, 1) : scatterFace(e, count);
}

/** A panel as if it were a light: both are flat and have a rim. */
export function frontOfPanel(q: Quad): Emitter {
  return { ...q, shape: "rectangle", sides: 0, exponent: 1, edgeDrop: 0, distribution: null };
}

export const WALL_NAMES = ["near wall", "far wall", "left wall", "right wall", "floor", "ceiling"] as const;

/** Round a wall of a box from the origin. */
export function rimOfWall(size: readonly [number, number, number], wall: number): Rim {
  const [axis, end, a, b] = WALL_AXES[wall];
  const corners = [
    [0, 0],
    [1, 0],
    [1, 1],
    [0, 1],
  ].map(([u, v]) => {
    const p = [0, 0, 0];
    p[axis] = end * size[axis];
    p[a] = u * size[a];
    p[b] = v * size[b];
    return p;
  });
  return alongSides(corners, ALONG_WALL);
}

/** Round the first sheet of an open mesh. */
export function rimOfSheet(mesh: Pick<MeshInstance, "triangles" | "positions" | "offset">): Rim {
  const { triangles, positions } = mesh;
  const after = new Map<number, number>();
  const edges = new Set<string>();
  const each = (visit: (a: number, b: number) => void) => {
    for (let t = 0; t < triangles.length; t += 3)
      for (let k = 0; k < 3; k++) visit(triangles[t + k], triangles[t + ((k + 1) % 3)]);
  };
  each((a, b) => edges.add(`${a} ${b}`));
  each((a, b) => {
    if (!edges.has(`${b} ${a}`)) after.set(a, b);
  });
  const rim: number[][] = [];
  const [first] = after.keys();
  let v = first;
  while (v !== undefined && rim.length <= after.size) {
    rim.push([0, 1, 2].map((k) => positions[3 * v + k] + mesh.offset[k]));
    const next = after.get(v);
    if (next === undefined || next === first) break;
    v = next;
  }
  return rim;
}

/** Whether a point lies inside the room: from outside no wall is mirrored. */
export function isInRoom(stage: Stage, p: ArrayLike<number>): boolean {
  const room = stage.scene.room;
  return room?.size.every((s, k) => p[k] > 0 && p[k] < s) ?? false;
}
