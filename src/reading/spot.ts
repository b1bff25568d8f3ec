/** What a spot meter sees: the mean luminance of a cone one degree wide. */
import {
  cutFace,
  directFlat,
  emitterArea,
  HIT,
  intensityPerLumen,
  rimFraction,
  type Tracer,
} from "../engine/index.ts";
import { edgeDropMean, LUMINANCE } from "../photometry/index.ts";
import type { Spot } from "./field.ts";
import type { Lighting } from "./lighting.ts";
import { newSeenPoint, type SeenPoint, SurfaceLight, writeSeenPoint } from "./surface-light.ts";
import type { Share } from "./types.ts";

/** Half of the one degree that a spot meter reads, in radians. */
const HALF_ANGLE = Math.PI / 360;
/** Rays over the cone: a centre and two rings. */
const RINGS = [
  [0, 1],
  [0.5, 6],
  [0.85, 12],
] as const;
/** At a glance the centre and one ring, at the cone's root-mean-square radius. */
const FEW_RINGS = [
  [0, 1],
  [0.76, 6],
] as const;
const SPOT_FACE_RINGS = { glance: 2, coarse: 8, fine: 8 } as const;
const FAR = 1e6;

/** What a cone sees, per light, on or off, and lm.s. */
interface SpotShares {
  /** pi x luminance of a light's own front */
  readonly direct: Float64Array;
  /** rgb: pi x luminance that surfaces send back of a white light */
  readonly bounced: Float64Array;
  /** reflectance that uniform light shows, as luminance */
  readonly ambient: number;
}

/** Per light pi L in lx.s: direct is a light's own front in view, bounced what surfaces send back. */
export function spotLuminance(lighting: Lighting, spot: Spot): Record<string, Share> {
  const { stage, memory, lightKey } = lighting;
  const name = JSON.stringify(spot);
  const shares = memory.recall(`spot ${name}`, lightKey, () => traceSpot(lighting, spot));
  const out: Record<string, Share> = {};
  stage.lights.forEach(({ name, on, lumenSeconds, meterWeights: w }, l) => {
    if (!on) return;
    const white = w[0] + w[1] + w[2];
    const [r, g, b] = shares.bounced.subarray(3 * l, 3 * l + 3);
    out[name] = {
      direct: lumenSeconds * white * shares.direct[l],
      bounced: lumenSeconds * (w[0] * r + w[1] * g + w[2] * b),
    };
  });
  if (stage.ambient > 0) out.ambient = { direct: 0, bounced: shares.ambient * stage.ambient };
  return out;
}

function traceSpot(lighting: Lighting, spot: Spot): SpotShares {
  const { stage, effort } = lighting;
  const surface = new SurfaceLight(lighting, null);
  const lights = stage.scene.emitters.length;
  const parts = stage.scene.emitters.map((e) =>
    cutFace(e, e.shape === "point" ? 1 : SPOT_FACE_RINGS[effort]),
  );
  const direct = new Float64Array(lights);
  const bounced = new Float64Array(3 * lights);
  const arriving = new Float64Array(3 * lights);
  const one = new Float64Array(3);
  const seen = newSeenPoint();
  const { tracer } = stage;
  const rays = coneRays(spot.direction, effort === "glance" ? FEW_RINGS : RINGS);
  const [x, y, z] = spot.position;
  let ambient = 0;
  for (const [dx, dy, dz] of rays) {
    if (!tracer.closest(x, y, z, dx, dy, dz, FAR, true)) continue;
    if (tracer.kind === HIT.emitter) {
      direct[tracer.index] += (Math.PI * frontLuminance(tracer, dx, dy, dz, x, y, z)) / rays.length;
      continue;
    }
    writeSeenPoint(lighting, tracer, x, y, z, dx, dy, dz, seen);
    // the shadow rays below overwrite the tracer's hit: look the surface light up first
    for (let l = 0; l < lights; l++) {
      surface.write(l, tracer, one);
      arriving.set(one, 3 * l);
    }
    for (let l = 0; l < lights; l++) {
      const straight = directFlat(
        tracer,
        l,
        parts[l],
        0,
        1,
        seen.x,
        seen.y,
        seen.z,
        seen.nx,
        seen.ny,
        seen.nz,
      );
      const behind = seen.transmittance > 0 ? behindPanel(tracer, l, parts[l], seen) : 0;
      for (let c = 0; c < 3; c++) {
        const back = seen.albedo[c] * (straight + arriving[3 * l + c]) + seen.transmittance * behind;
        bounced[3 * l + c] += back / rays.length;
      }
    }
    const [r, g, b] = seen.albedo;
    ambient += (LUMINANCE[0] * r + LUMINANCE[1] * g + LUMINANCE[2] * b) / rays.length;
  }
  return { direct, bounced, ambient };
}

/** Exposure of the far side of a thin panel that is being looked at. */
export function behindPanel(
  tracer: Tracer,
  light: number,
  parts: ReturnType<typeof cutFace>,
  seen: SeenPoint,
): number {
  // the start was lifted to the near side: step through the sheet
  const step = -2 * PANEL_STEP;
  const x = seen.x + step * seen.nx;
  const y = seen.y + step * seen.ny;
  const z = seen.z + step * seen.nz;
  return directFlat(tracer, light, parts, 0, 1, x, y, z, -seen.nx, -seen.ny, -seen.nz);
}

const PANEL_STEP = 1e-4;

/** Luminance x time of a light's front per lm.s where the tracer's last hit met it, cd.s/m2; 0 from behind.
 * Source  L = q (m + 1) / (2 pi) cos^(m-1), q the exitance there with the edge drop, physics.md */
export function frontLuminance(
  tracer: Tracer,
  dx: number,
  dy: number,
  dz: number,
  ox: number,
  oy: number,
  oz: number,
): number {
  if (!tracer.fromFront) return 0;
  const e = tracer.scene.emitters[tracer.index];
  const cosine = -(dx * e.forward[0] + dy * e.forward[1] + dz * e.forward[2]);
  const x = ox + tracer.t * dx - e.centre[0];
  const y = oy + tracer.t * dy - e.centre[1];
  const z = oz + tracer.t * dz - e.centre[2];
  const s = rimFraction(
    e,
    x * e.right[0] + y * e.right[1] + z * e.right[2],
    x * e.up[0] + y * e.up[1] + z * e.up[2],
  );
  const exitance = 2 ** (-e.edgeDrop * s * s) / (edgeDropMean(e.edgeDrop) * emitterArea(e));
  if (e.distribution) {
    const across = -(dx * e.right[0] + dy * e.right[1] + dz * e.right[2]);
    const upward = -(dx * e.up[0] + dy * e.up[1] + dz * e.up[2]);
    return (exitance * intensityPerLumen(e.distribution, cosine, across, upward)) / cosine;
  }
  return (exitance * (e.exponent + 1) * cosine ** (e.exponent - 1)) / (2 * Math.PI);
}

function coneRays(
  direction: readonly [number, number, number],
  rings: readonly (readonly [number, number])[],
): [number, number, number][] {
  const [x, y, z] = direction;
  const flat = Math.hypot(x, y);
  const u = flat > 1e-9 ? [y / flat, -x / flat, 0] : [1, 0, 0];
  const v = [y * u[2] - z * u[1], z * u[0] - x * u[2], x * u[1] - y * u[0]];
  const rays: [number, number, number][] = [];
  for (const [radius, count] of rings) {
    for (let k = 0; k < count; k++) {
      const a = (2 * Math.PI * k) / count;
      const p = Math.tan(HALF_ANGLE) * radius * Math.cos(a);
      const q = Math.tan(HALF_ANGLE) * radius * Math.sin(a);
      const d = [x + p * u[0] + q * v[0], y + p * u[1] + q * v[1], z + p * u[2] + q * v[2]];
      const length = Math.hypot(d[0], d[1], d[2]);
      rays.push([d[0] / length, d[1] / length, d[2] / length]);
    }
  }
  return rays;
}
