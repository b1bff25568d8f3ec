// Reads the canonical face geometry out of the package @mediapipe/face_mesh (Apache-2.0) and writes
// src/figure/canonical-face.generated.ts. Run by hand when the package changes: node scripts/canonical-face.mjs
import { readFileSync, writeFileSync } from "node:fs";

const PACKAGE = "node_modules/@mediapipe/face_mesh/";
const ASSET = "geometry_pipeline_metadata_landmarks.binarypb";

/** One asset out of the packed file, by the byte range that the loader names. */
function asset() {
  const loader = readFileSync(`${PACKAGE}face_mesh_solution_packed_assets_loader.js`, "utf8");
  const range = new RegExp(
    `${ASSET.replace(".", "\\.")}"[^}]*?"?start"?: ?(\\d+)[^}]*?"?end"?: ?(\\d+)`,
  ).exec(loader);
  if (!range) throw new Error(`${ASSET} is not listed in the package's loader`);
  return readFileSync(`${PACKAGE}face_mesh_solution_packed_assets.data`).subarray(
    Number(range[1]),
    Number(range[2]),
  );
}

/** The fields of a protocol-buffer message: [field number, bytes or number] in order. */
function fields(bytes) {
  const out = [];
  let at = 0;
  const varint = () => {
    let value = 0;
    let shift = 1;
    for (;;) {
      const b = bytes[at++];
      value += (b & 127) * shift;
      if (b < 128) return value;
      shift *= 128;
    }
  };
  while (at < bytes.length) {
    const tag = varint();
    const type = tag & 7;
    if (type === 0) out.push([tag >> 3, varint()]);
    else if (type === 2) {
      const length = varint();
      out.push([tag >> 3, bytes.subarray(at, at + length)]);
      at += length;
    } else if (type === 5) {
      out.push([tag >> 3, bytes.subarray(at, at + 4)]);
      at += 4;
    } else throw new Error(`wire type ${type} was not expected`);
  }
  return out;
}

/** Vertices (xyz, centimetres, y up, z toward the viewer) and triangles of the canonical face. */
export function canonicalFace() {
  const mesh = fields(asset()).find(([number]) => number === 1)[1];
  const floats = [];
  const indices = [];
  for (const [number, value] of fields(mesh)) {
    if (number === 3) {
      if (typeof value === "number") throw new Error("vertices were expected as floats");
      const view = new DataView(value.buffer, value.byteOffset, value.byteLength);
      for (let i = 0; i < value.byteLength; i += 4) floats.push(view.getFloat32(i, true));
    } else if (number === 4) indices.push(...(typeof value === "number" ? [value] : packed(value)));
  }
  const vertices = [];
  for (let i = 0; i < floats.length; i += 5) vertices.push(floats[i], floats[i + 1], floats[i + 2]);
  return { vertices: vertices.map((v) => Number(v.toFixed(6))), triangles: indices };
}

function packed(bytes) {
  const out = [];
  let value = 0;
  let shift = 1;
  for (const b of bytes) {
    value += (b & 127) * shift;
    shift *= 128;
    if (b < 128) {
      out.push(value);
      value = 0;
      shift = 1;
    }
  }
  return out;
}

if (process.argv[1]?.endsWith("canonical-face.mjs")) {
  const { vertices, triangles } = canonicalFace();
  writeFileSync(
    "src/figure/canonical-face.generated.ts",
    `// Canonical face geometry of MediaPipe Face Mesh, (c) The MediaPipe Authors, Apache-2.0; see NOTICE.
// Written by scripts/canonical-face.mjs from the package @mediapipe/face_mesh; not edited by hand.
/** xyz per vertex, centimetres: x to the viewer's right, y up, z toward the viewer. */
export const CANONICAL_VERTICES: readonly number[] = [${vertices.join(",")}];
/** three vertex indices per triangle */
export const CANONICAL_TRIANGLES: readonly number[] = [${triangles.join(",")}];
`,
  );
}
