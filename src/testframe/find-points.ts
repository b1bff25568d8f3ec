/** Which of the mesh's points are what. Numbers as MediaPipe Face Mesh has them; left and right are the person's own. */
import { CANONICAL_VERTICES } from "../figure/index.ts";
import { MESH_POINTS } from "./find-nets.ts";

/** Outer and inner corner. */
export const EYE_CORNERS = { right: [33, 133], left: [263, 362] } as const;

/** Points of the mesh in the order of the eye network's first: the lower lid's edge from the outer corner to the inner one,
 * then the upper lid's between them. */
export const EYE_RINGS = {
  right: [33, 7, 163, 144, 145, 153, 154, 155, 133, 246, 161, 160, 159, 158, 157, 173],
  left: [263, 249, 390, 373, 374, 380, 381, 382, 362, 466, 388, 387, 386, 385, 384, 398],
} as const;

export const IRIS_START = { right: MESH_POINTS, left: MESH_POINTS + 5 } as const;

/** Of each point of the mesh the one that lies mirrored on the other side; itself on the middle line. */
export const MIRROR: readonly number[] = mirrorOf();

function mirrorOf(): number[] {
  const apart = (i: number, j: number) =>
    (CANONICAL_VERTICES[3 * i] + CANONICAL_VERTICES[3 * j]) ** 2 +
    (CANONICAL_VERTICES[3 * i + 1] - CANONICAL_VERTICES[3 * j + 1]) ** 2 +
    (CANONICAL_VERTICES[3 * i + 2] - CANONICAL_VERTICES[3 * j + 2]) ** 2;
  return Array.from({ length: MESH_POINTS }, (_, i) => {
    let nearest = 0;
    for (let j = 1; j < MESH_POINTS; j++) if (apart(i, j) < apart(i, nearest)) nearest = j;
    return nearest;
  });
}
