/** Paper on a roll or a built cove: a sheet that hangs, sweeps forward and runs along the floor. */
import { type PatchedMesh, patchMesh } from "../engine/index.ts";
import type { Backdrop } from "../plan/index.ts";

const SWEEP_STEPS = 12;
const STEP_ACROSS = 0.5;
const STEP_UP = 0.5;
/** The sheet lies this far off the floor and off its own line, so that it does not lie in the floor's plane. */
const THICKNESS = 0.002;

const made = new WeakMap<Backdrop, PatchedMesh>();

/** The mesh in the world's axes; both sides are drawn, as two sheets back to back. */
export function backdropMesh(b: Backdrop): PatchedMesh {
  let mesh = made.get(b);
  if (!mesh) {
    mesh = hung(b);
    made.set(b, mesh);
  }
  return mesh;
}

function hung(b: Backdrop): PatchedMesh {
  const profile = profileOf(b);
  const columns = Math.max(1, Math.ceil(b.width / STEP_ACROSS));
  const bearing = (b.bearing * Math.PI) / 180;
  const ahead = [Math.sin(bearing), Math.cos(bearing)];
  const across = [Math.cos(bearing), -Math.sin(bearing)];
  const positions: number[] = [];
  const normals: number[] = [];
  const triangles: number[] = [];
  for (const side of [1, -1]) {
    const first = positions.length / 3;
    for (const p of profile) {
      for (let i = 0; i <= columns; i++) {
        const u = (i / columns - 0.5) * b.width;
        const out = p.out - (side < 0 ? p.nOut * THICKNESS : 0);
        positions.push(
          b.position[0] + u * across[0] + out * ahead[0],
          b.position[1] + u * across[1] + out * ahead[1],
          p.up - (side < 0 ? p.nUp * THICKNESS : 0),
        );
        normals.push(side * p.nOut * ahead[0], side * p.nOut * ahead[1], side * p.nUp);
      }
    }
    for (let j = 0; j + 1 < profile.length; j++) {
      for (let i = 0; i < columns; i++) {
        const a = first + j * (columns + 1) + i;
        const c = a + columns + 1;
        // profile runs downward and outward: this order faces the lit side
        const quad = [a, a + 1, c, a + 1, c + 1, c];
        if (side < 0) quad.reverse();
        triangles.push(...quad);
      }
    }
  }
  return patchMesh(
    {
      positions: Float64Array.from(positions),
      normals: Float64Array.from(normals),
      triangles: Uint32Array.from(triangles),
      materials: new Uint8Array(triangles.length / 3),
    },
    STEP_UP,
  );
}

/** From the top edge down, round the sweep and out along the floor: distance out, height, normal. */
function profileOf(b: Backdrop): { out: number; up: number; nOut: number; nUp: number }[] {
  const radius = Math.min(b.sweepRadius, b.top);
  const floor = 2 * THICKNESS;
  const points: { out: number; up: number; nOut: number; nUp: number }[] = [];
  const rise = Math.max(1, Math.ceil((b.top - radius) / STEP_UP));
  for (let i = 0; i < rise; i++) {
    points.push({ out: 0, up: b.top - (i / rise) * (b.top - radius - floor), nOut: 1, nUp: 0 });
  }
  for (let i = 0; i <= SWEEP_STEPS; i++) {
    const a = (i / SWEEP_STEPS) * (Math.PI / 2);
    points.push({
      out: radius * (1 - Math.cos(a)),
      up: floor + radius * (1 - Math.sin(a)),
      nOut: Math.cos(a),
      nUp: Math.sin(a),
    });
  }
  const run = Math.max(1, Math.ceil(b.floorLength / STEP_UP));
  for (let i = 1; i <= run && b.floorLength > 0; i++) {
    points.push({ out: radius + (i / run) * b.floorLength, up: floor, nOut: 0, nUp: 1 });
  }
  return points;
}
