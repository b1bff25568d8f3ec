/** What the finder asks of the three networks; src/files/face-models.ts has them for Node. Pictures are square, row-major
 * from the top, r g b as sRGB codes from 0 to 1. */
export interface FaceNets {
  /** one picture of `NET_SIDE.faces`: rows of `FACE_ROW` numbers, a score (logit), then offsets in pixels from the row's
   * anchor: middle x y, width, height, and six points x y (right eye, left eye, nose, mouth, right ear, left ear) */
  faces(rgb: Float32Array): Promise<Float32Array>;
  /** `count` pictures of `NET_SIDE.mesh`: x y z of 468 points each in pixels of the picture, and how likely each is a face */
  mesh(rgb: Float32Array, count: number): Promise<{ points: Float32Array; scores: Float32Array }>;
  /** `count` pictures of `NET_SIDE.eye` with an own right eye (or a mirrored left one): x y z of 71 points of lids and brow
   * and 5 of the iris each, in pixels of the picture */
  eyes(rgb: Float32Array, count: number): Promise<Float32Array>;
}

export const NET_SIDE = { faces: 256, mesh: 192, eye: 64 } as const;
export const FACE_ROW = 17;
export const MESH_POINTS = 468;
export const EYE_POINTS = 76;
