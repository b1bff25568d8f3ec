/** The fitted face as a surface in the picture: the landmark model's own points, made fine, with what the picture shows
 * at each. docs/decisions/0010-the-light-in-a-picture.md tells why its own points and not a rigid face. */
import { CANONICAL_VERTICES, vertexAreas, writeNormals } from "../figure/index.ts";
import type { Vec3 } from "../math/index.ts";
import { placeRigid } from "./surface-fit.ts";
import { FACE_POINTS, faceTemplate, smoothed } from "./surface-mesh.ts";
import { writeLuminance, writeSeen } from "./surface-pixels.ts";
import { rise } from "./surface-skin.ts";
import type { FoundFace, LinearPicture, SeenFace } from "./types.ts";

export interface SeeOptions {
  /** pixels of the picture; null or absent: not known, taken as far away */
  readonly focalLengthPixels?: number | null;
}

/** Metres per centimetre of the canonical face on a mean head: its heights and depths are scaled by 0.93 in the figure,
 * its widths by 0.93 to 1.01. */
const MEAN_SIZE = 0.0095;
/** What keeps its place on the skull: not mouth, jaw, brows or lids. */
const STEADY = [
  1, 2, 4, 5, 6, 9, 10, 33, 98, 127, 133, 151, 162, 168, 195, 197, 234, 263, 327, 356, 362, 389, 454,
];
/** Half of the distance between points of the fine mesh, metres: what a sample of the picture is averaged over. */
const SAMPLE_RADIUS = 0.0016;
/** So far behind the foremost surface a point still counts as seen, metres. */
const SLACK = 0.003;
/** Cosines to the camera from which a point begins to count, and from which it counts in full. */
const GRAZING = 0.2;
const SQUARE = 0.55;
/** Share of clipped pixels at which a sample no longer counts. */
const CLIPPED = 0.1;
/** Luminance at which a picture without its own account of clipping is taken as clipped. */
const FULL = 0.985;
const BRIDGE = 6;
const NOSE_TIP = 1;

export function seeFace(
  picture: LinearPicture,
  clippedShare: Uint8Array | null,
  face: FoundFace,
  options: SeeOptions = {},
): SeenFace {
  const template = faceTemplate();
  const { count, triangles, places } = template;
  const focal = options.focalLengthPixels ?? null;
  const upright = uprightPoints(face, focal);
  const placed = placeRigid(CANONICAL_VERTICES, upright, STEADY);
  const pixelsPerMetre = placed.scale / MEAN_SIZE;
  const points = upright.map((x, i) => (x - placed.shift[i % 3]) / pixelsPerMetre);
  const positions = smoothed(points).values;
  const normals = new Float64Array(3 * count);
  writeNormals(normals, positions, triangles);
  const areas = vertexAreas({ positions, triangles });
  const pixels = smoothedPixels(face, count);
  const luminance = new Float64Array(count);
  const clipped = new Float64Array(count);
  writeLuminance(luminance, clipped, picture, clippedShare, pixels, SAMPLE_RADIUS * pixelsPerMetre);
  const seen = new Uint8Array(count);
  writeSeen(seen, positions, triangles, SLACK);
  const weights = new Float64Array(count);
  for (let v = 0; v < count; v++) {
    if (!seen[v]) luminance[v] = Number.NaN;
    if (Number.isNaN(luminance[v]) || clipped[v] > CLIPPED) continue;
    if (!clippedShare && luminance[v] >= FULL) continue;
    weights[v] = template.trust[v] * rise(GRAZING, SQUARE, normals[3 * v + 2]) * rim(places, v);
  }
  const toCamera = cameraFromSight(face, picture, focal);
  const inCamera = turn(toCamera, positions);
  const at = (v: number): Vec3 => [inCamera[3 * v], inCamera[3 * v + 1], inCamera[3 * v + 2]];
  return {
    count,
    positions: inCamera,
    normals: turn(toCamera, normals),
    regions: template.regions,
    pixels,
    areas,
    reflectance: template.reflectance,
    luminance,
    weights,
    triangles,
    cameraFromHead: cameraFromHead(toCamera, placed.rotation),
    bridge: at(BRIDGE),
    noseTip: at(NOSE_TIP),
    pixelsPerMetre,
  };
}

/** Points of the face in pixels, x right, y up, z toward the camera, as seen along the line of sight. With a focal length
 * what is nearer is drawn in again, as it would look from far away: nearer parts are larger in a picture. */
function uprightPoints(face: FoundFace, focal: number | null): Float64Array {
  const { points, box } = face;
  const out = new Float64Array(3 * FACE_POINTS);
  const [midX, midY] = [box.left + box.width / 2, box.top + box.height / 2];
  for (let v = 0; v < FACE_POINTS; v++) {
    // at the distance where a pixel of the face is a pixel of the picture, that distance is the focal length
    const grown = focal ? 1 + points[3 * v + 2] / focal : 1;
    out[3 * v] = (points[3 * v] - midX) * grown;
    out[3 * v + 1] = (midY - points[3 * v + 1]) * grown;
    out[3 * v + 2] = -points[3 * v + 2];
  }
  return out;
}

/** 3 x 3 row-major: from axes along the line of sight to a face into the camera's. */
function cameraFromSight(face: FoundFace, picture: LinearPicture, focal: number | null): Float64Array {
  if (!focal) return Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1);
  const { box } = face;
  const x = box.left + box.width / 2 - picture.width / 2;
  const y = picture.height / 2 - box.top - box.height / 2;
  const length = Math.hypot(x, y, focal);
  const [bx, by, bz] = [-x / length, -y / length, focal / length];
  // the smallest turn from (0, 0, 1) to where the camera is seen from the face
  const k = 1 / (1 + bz);
  return Float64Array.of(1 - k * bx * bx, -k * bx * by, bx, -k * bx * by, 1 - k * by * by, by, -bx, -by, bz);
}

function turn(r: Float64Array, p: Float64Array): Float64Array {
  const out = new Float64Array(p.length);
  for (let i = 0; i < p.length; i += 3)
    for (let j = 0; j < 3; j++)
      out[i + j] = r[3 * j] * p[i] + r[3 * j + 1] * p[i + 1] + r[3 * j + 2] * p[i + 2];
  return out;
}

/** Pixels of the fine mesh: the picture's own, so the same surface laid through the points as they were found. */
function smoothedPixels(face: FoundFace, count: number): Float64Array {
  const fine = smoothed(Float64Array.from(face.points.subarray(0, 3 * FACE_POINTS))).values;
  const pixels = new Float64Array(2 * count);
  for (let v = 0; v < count; v++) {
    pixels[2 * v] = fine[3 * v];
    pixels[2 * v + 1] = fine[3 * v + 1];
  }
  return pixels;
}

/** The mesh's edge, where hair and background begin, counts for less: canonical centimetres. */
function rim(places: Float64Array, v: number): number {
  const aside = Math.abs(places[3 * v]);
  const up = places[3 * v + 1];
  return rise(7.4, 6.4, aside) * rise(8.2, 6.6, up) * rise(-9.2, -8.2, up);
}

/** Head axes (x ahead, y own left, z up) are the canonical face's z, x, y. */
function cameraFromHead(toCamera: Float64Array, rotation: Float64Array): Float64Array {
  const out = new Float64Array(9);
  for (let i = 0; i < 3; i++)
    for (let j = 0; j < 3; j++)
      for (let k = 0; k < 3; k++) out[3 * i + j] += toCamera[3 * i + k] * rotation[3 * k + ((j + 2) % 3)];
  return out;
}
