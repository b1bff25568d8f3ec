/** The shapes that the figure room hands to the others.
 *
 * Head axes (right-handed, metres): x straight ahead of the nose, y to the person's own left, z up;
 * the origin is the mid-point between the ear openings. Body axes: the same, but z = 0 is the floor,
 * x is where the body faces, and the origin is the floor point under the mid-point between the ears at rest. */

export const MATERIAL = {
  skin: 0,
  clothing: 1,
  hair: 2,
  sclera: 3,
  iris: 4,
  pupil: 5,
  lip: 6,
  spectacleFrame: 7,
} as const;
export type Material = (typeof MATERIAL)[keyof typeof MATERIAL];

/** A triangle mesh in flat arrays. Triangles are counter-clockwise seen from outside. */
export interface Mesh {
  /** xyz per vertex, metres */
  readonly positions: Float64Array;
  /** unit xyz per vertex, smooth */
  readonly normals: Float64Array;
  /** three vertex indices per triangle */
  readonly triangles: Uint32Array;
  /** one MATERIAL per triangle */
  readonly materials: Uint8Array;
}

/** Named regions of the face, as sets of head-mesh vertices. `left` and `right` are the person's own. */
export const REGION = {
  none: 0,
  leftCheek: 1,
  rightCheek: 2,
  forehead: 3,
  nose: 4,
  upperLip: 5,
  chin: 6,
  leftSocket: 7,
  rightSocket: 8,
} as const;
export type Region = (typeof REGION)[keyof typeof REGION];

export interface Eye {
  /** centre of the globe, head axes, metres */
  readonly centre: readonly [number, number, number];
  readonly globeRadius: number;
  /** centre of the sphere that the cornea is part of, and its radius (7.8 mm) */
  readonly corneaCentre: readonly [number, number, number];
  readonly corneaRadius: number;
  readonly irisRadius: number;
}

/** The head in head axes. Region, front and area are per vertex. */
export interface Head {
  readonly mesh: Mesh;
  /** size over the mean head's */
  readonly scale: number;
  /** one REGION per vertex */
  readonly regions: Uint8Array;
  /** 1 where the vertex belongs to the front of the face (the measured mask, without eyes), else 0 */
  readonly front: Uint8Array;
  /** a third of the area of the triangles that meet at the vertex, m2 */
  readonly vertexAreas: Float64Array;
  readonly landmarks: Readonly<Record<LandmarkName, readonly [number, number, number]>>;
  readonly leftEye: Eye;
  readonly rightEye: Eye;
}

export type LandmarkName =
  | "noseBridge" // between the eyes, on the skin: where the light vector is read
  | "noseTip"
  | "chin"
  | "upperLip"
  | "leftEar"
  | "rightEar"
  | "leftCheek"
  | "rightCheek"
  | "forehead"
  | "crown";

/** One spectacle lens: a disc-like piece of a sphere (or plane) whose outline is a rounded rectangle. Head axes, metres. */
export interface Lens {
  readonly eye: "left" | "right";
  /** vertex of the front surface, on the outline's middle */
  readonly centre: readonly [number, number, number];
  /** unit: ahead out of the lens at the centre; along its width toward the own left; up along it */
  readonly ahead: readonly [number, number, number];
  readonly left: readonly [number, number, number];
  readonly up: readonly [number, number, number];
  readonly halfWidth: number;
  readonly halfHeight: number;
  /** radius of the rounded corners */
  readonly cornerRadius: number;
  /** radius of the front's sphere, its centre behind the lens; Infinity for a flat lens */
  readonly curveRadius: number;
}

/** Rims, bridge and temples as a mesh that blocks light; lenses let light through and only mirror. */
export interface Glasses {
  readonly frame: Mesh;
  readonly lenses: readonly [Lens, Lens];
}

export interface PersonShape {
  readonly head: Head;
  /** the hair's cap, head axes, closed; null for a bare head */
  readonly hair: Mesh | null;
  readonly glasses: Glasses | null;
  /** neck, shoulders and upper body down to the floor (or seat), body axes */
  readonly body: Mesh;
  /** height of the mid-point between the ear openings above the floor, metres */
  readonly earHeight: number;
}
