/** What the camera sees, as shares per light: rays from the camera, shadow rays to every light's face. */
import { cutFace, directFlat, type FaceParts, HIT, type Tracer } from "../engine/index.ts";
import { MATERIAL } from "../figure/index.ts";
import { schlickReflectance } from "../photometry/index.ts";
import { type Viewfinder, writeCameraRay } from "./camera-rays.ts";
import { evenOut } from "./frame-filter.ts";
import type { Lighting } from "./lighting.ts";
import { behindPanel, frontLuminance, newSeenPoint } from "./spot.ts";
import { SurfaceLight, writeSeenPoint } from "./surface-light.ts";

/** Per pixel, top row first. */
export interface FrameShares {
  readonly width: number;
  readonly height: number;
  /** per light: pi x luminance x time for a white light, rgb; per lm.s; null where off */
  readonly perLight: readonly (Float32Array | null)[];
  /** rgb reflectance of what is seen (0 where nothing is): ambient light is weighed with it */
  readonly albedo: Float32Array;
  /** what is seen: see SEEN */
  readonly seen: Uint8Array;
  /** values that were not finite and count as 0: shown, never hidden */
  readonly badSamples: number;
}

export const SEEN = { nothing: 0, room: 1, panel: 2, light: 3, skin: 4, person: 5, backdrop: 6 } as const;

/** Neighbouring pixels take different sixteenths of a light's face; `evenOut` then shares them within 4 x 4. */
export const INTERLEAVE = 16;
const RINGS = { coarse: 4, fine: 8 } as const;
/** 64 parts: within 0.3 % of the closed form from half a diameter off (measured). */
const WHOLE_RINGS = 4;
const FAR = 1e6;
/** Refractive index of a cornea, published-checks section 10. */
const CORNEA_INDEX = 1.376;

/** Called now and then; returns false to stop. */
export type KeepGoing = (done: number) => boolean;

export class Stopped extends Error {
  constructor() {
    super("stopped");
    this.name = "Stopped";
  }
}

export function traceFrame(lighting: Lighting, view: Viewfinder, keepGoing: KeepGoing): FrameShares {
  return new FrameTracer(lighting, view).trace(keepGoing);
}

class FrameTracer {
  private readonly tracer: Tracer;
  private readonly surface: SurfaceLight;
  private readonly parts: readonly FaceParts[];
  /** the fronts cut for the light that would arrive with nothing between */
  private readonly wholeParts: readonly FaceParts[];
  private readonly ray = new Float64Array(3);
  private readonly point = newSeenPoint();
  private readonly rgb = new Float64Array(3);
  private badSamples = 0;
  // one pixel's results, per light: share of the front that is seen, exposure if all of it were, everything else
  private readonly direct: Float64Array;
  private readonly open: Float64Array;
  private readonly rest: Float64Array;
  private seenKind = 0;
  private surfaceId = 0;

  constructor(
    private readonly lighting: Lighting,
    private readonly view: Viewfinder,
  ) {
    this.tracer = lighting.stage.tracer;
    this.surface = new SurfaceLight(lighting, lighting.quality === "fine");
    const rings = RINGS[lighting.quality];
    this.parts = lighting.stage.scene.emitters.map((e) => cutFace(e, e.shape === "point" ? 1 : rings));
    this.wholeParts = lighting.stage.scene.emitters.map((e) =>
      cutFace(e, e.shape === "point" ? 1 : WHOLE_RINGS),
    );
    this.direct = new Float64Array(lighting.stage.lights.length);
    this.open = new Float64Array(lighting.stage.lights.length);
    this.rest = new Float64Array(3 * lighting.stage.lights.length);
  }

  trace(keepGoing: KeepGoing): FrameShares {
    const { width, height } = this.view;
    const { lights } = this.lighting.stage;
    const n = width * height;
    const direct = lights.map((l) => (l.on ? new Float32Array(n) : null));
    const open = lights.map((l) => (l.on ? new Float32Array(n) : null));
    const perLight = lights.map((l) => (l.on ? new Float32Array(3 * n) : null));
    const albedo = new Float32Array(3 * n);
    const seen = new Uint8Array(n);
    const surfaceId = new Uint16Array(n);
    const normals = new Float32Array(3 * n);
    const depth = new Float32Array(n);
    for (let y = 0; y < height; y++) {
      if (!keepGoing((0.8 * y) / height)) throw new Stopped();
      for (let x = 0; x < width; x++) {
        const i = y * width + x;
        this.sample(x + 0.5, y + 0.5, (x & 3) + 4 * (y & 3));
        seen[i] = this.seenKind;
        surfaceId[i] = this.surfaceId;
        depth[i] = this.seenKind === SEEN.nothing ? 0 : this.tracerDepth;
        normals[3 * i] = this.point.nx;
        normals[3 * i + 1] = this.point.ny;
        normals[3 * i + 2] = this.point.nz;
        for (let c = 0; c < 3; c++) albedo[3 * i + c] = this.point.albedo[c];
        for (let l = 0; l < lights.length; l++) {
          const e = direct[l];
          const out = perLight[l];
          if (!e || !out) continue;
          e[i] = this.direct[l];
          (open[l] as Float32Array)[i] = this.open[l];
          for (let c = 0; c < 3; c++) out[3 * i + c] = this.rest[3 * l + c];
        }
      }
    }
    const same = { width, height, surfaceId, normals, depth };
    for (let l = 0; l < lights.length; l++) {
      const e = direct[l];
      const out = perLight[l];
      if (!e || !out) continue;
      const even = evenOut(e, same);
      const whole = open[l] as Float32Array;
      for (let i = 0; i < 3 * n; i++) {
        const pixel = Math.floor(i / 3);
        out[i] += albedo[i] * even[pixel] * whole[pixel];
      }
    }
    this.smoothEdges(same, perLight, keepGoing);
    return { width, height, perLight, albedo, seen, badSamples: this.badSamples };
  }

  private tracerDepth = 0;

  /** One ray. Results in `direct`, `open` and `rest` (bounce, own light, reflections), per light. */
  private sample(px: number, py: number, subset: number) {
    const { stage } = this.lighting;
    const { tracer, point, ray, direct, open, rest } = this;
    const [ox, oy, oz] = this.view.position;
    writeCameraRay(this.view, px, py, ray);
    direct.fill(0);
    open.fill(0);
    rest.fill(0);
    point.albedo.fill(0);
    this.seenKind = SEEN.nothing;
    this.surfaceId = 0;
    const [dx, dy, dz] = ray;
    if (!tracer.closest(ox, oy, oz, dx, dy, dz, FAR, true)) return;
    this.tracerDepth = tracer.t;
    if (tracer.kind === HIT.emitter) {
      this.seenKind = SEEN.light;
      this.surfaceId = 1000 + tracer.index;
      this.addFront(dx, dy, dz, ox, oy, oz, 1);
      return;
    }
    writeSeenPoint(this.lighting, tracer, ox, oy, oz, dx, dy, dz, point);
    const material = this.describe();
    for (let l = 0; l < stage.lights.length; l++) {
      if (!stage.lights[l].on) continue;
      this.surface.write(l, tracer, this.rgb);
      for (let c = 0; c < 3; c++) rest[3 * l + c] = this.finite(point.albedo[c] * this.rgb[c]);
    }
    for (let l = 0; l < stage.lights.length; l++) {
      if (!stage.lights[l].on) continue;
      open[l] = this.finite(this.openAt(l));
      direct[l] = open[l] > 0 ? this.finite(this.shareSeen(l, subset)) : 0;
      if (point.transmittance > 0) {
        const glow = point.transmittance * behindPanel(tracer, l, this.parts[l], point);
        for (let c = 0; c < 3; c++) rest[3 * l + c] += glow;
      }
    }
    if (material === MATERIAL.sclera || material === MATERIAL.iris || material === MATERIAL.pupil)
      this.addCornea(dx, dy, dz);
  }

  /** What the whole front would give with nothing between, lx.s per lm.s. */
  private openAt(l: number): number {
    const { x, y, z, nx, ny, nz } = this.point;
    return directFlat(this.tracer, l, this.wholeParts[l], 0, 1, x, y, z, nx, ny, nz, false);
  }

  /** The share of a sixteenth of the front's light that is not cut off. Only this carries grain, and only this is
   * evened out afterwards, so that light without shadows is as exact as its sum. */
  private shareSeen(l: number, subset: number): number {
    const { x, y, z, nx, ny, nz } = this.point;
    const parts = this.parts[l];
    const step = parts.count >= INTERLEAVE ? INTERLEAVE : 1;
    const first = step === 1 ? 0 : subset;
    const seen = directFlat(this.tracer, l, parts, first, step, x, y, z, nx, ny, nz);
    if (!(seen > 0)) return 0;
    return seen / directFlat(this.tracer, l, parts, first, step, x, y, z, nx, ny, nz, false);
  }

  /** Names what was hit, for the filter and for the reading; returns the material on a person, else -1. */
  private describe(): number {
    const { tracer } = this;
    const { stage } = this.lighting;
    this.surfaceId = 100 * tracer.kind + tracer.index;
    if (tracer.kind === HIT.room) this.seenKind = SEEN.room;
    if (tracer.kind === HIT.quad) this.seenKind = SEEN.panel;
    if (tracer.kind !== HIT.mesh) return -1;
    const owner = stage.owners[tracer.index];
    if (owner.kind === "backdrop") {
      this.seenKind = SEEN.backdrop;
      return -1;
    }
    const shape = stage.people[owner.person].shape;
    const mesh = owner.kind === "head" ? shape.head.mesh : shape.body;
    const material = mesh.materials[tracer.triangle];
    this.surfaceId = 2000 + 100 * tracer.index + material;
    this.seenKind = material === MATERIAL.skin || material === MATERIAL.lip ? SEEN.skin : SEEN.person;
    return material;
  }

  /** The wet surface of an eye mirrors the fronts of the lights. Fresnel by Schlick 1994. */
  private addCornea(dx: number, dy: number, dz: number) {
    const { point, tracer } = this;
    const along = dx * point.nx + dy * point.ny + dz * point.nz;
    if (!(along < 0)) return;
    const rx = dx - 2 * along * point.nx;
    const ry = dy - 2 * along * point.ny;
    const rz = dz - 2 * along * point.nz;
    const fresnel = schlickReflectance(Math.acos(Math.min(1, -along)), CORNEA_INDEX);
    if (!tracer.closest(point.x, point.y, point.z, rx, ry, rz, FAR, true)) return;
    if (tracer.kind === HIT.emitter) this.addFront(rx, ry, rz, point.x, point.y, point.z, fresnel);
  }

  /** A light's own front in view (or mirrored): pi L, so that it weighs as surfaces do. */
  private addFront(dx: number, dy: number, dz: number, ox: number, oy: number, oz: number, factor: number) {
    const l = this.tracer.index;
    if (!this.lighting.stage.lights[l].on) return;
    const value = this.finite(factor * Math.PI * frontLuminance(this.tracer, dx, dy, dz, ox, oy, oz));
    for (let c = 0; c < 3; c++) this.rest[3 * l + c] += value;
  }

  private finite(x: number): number {
    if (Number.isFinite(x)) return x;
    this.badSamples++;
    return 0;
  }

  /** Pixels on an outline are taken again as the mean of four rays. */
  private smoothEdges(
    same: { width: number; height: number; surfaceId: Uint16Array },
    perLight: readonly (Float32Array | null)[],
    keepGoing: KeepGoing,
  ) {
    const { width, height, surfaceId } = same;
    const sums = new Float64Array(3 * perLight.length);
    for (let y = 0; y < height; y++) {
      if (!keepGoing(0.8 + (0.2 * y) / height)) throw new Stopped();
      for (let x = 0; x < width; x++) {
        const i = y * width + x;
        const id = surfaceId[i];
        const edge =
          (x > 0 && surfaceId[i - 1] !== id) ||
          (x + 1 < width && surfaceId[i + 1] !== id) ||
          (y > 0 && surfaceId[i - width] !== id) ||
          (y + 1 < height && surfaceId[i + width] !== id);
        if (!edge) continue;
        sums.fill(0);
        for (let k = 0; k < 4; k++) {
          this.sample(
            x + 0.25 + 0.5 * (k & 1),
            y + 0.25 + 0.5 * (k >> 1),
            (5 * k + (x & 3) + 4 * (y & 3)) % 16,
          );
          for (let l = 0; l < perLight.length; l++)
            for (let c = 0; c < 3; c++)
              sums[3 * l + c] +=
                (this.point.albedo[c] * this.direct[l] * this.open[l] + this.rest[3 * l + c]) / 4;
        }
        perLight.forEach((out, l) => {
          if (out) for (let c = 0; c < 3; c++) out[3 * i + c] = sums[3 * l + c];
        });
      }
    }
  }
}
