/** Rays between the camera, one lens and what it mirrors. */
import { type Emitter, HIT, hitEmitter, PART_STRIDE, type Tracer } from "../engine/index.ts";
import { paneTransmittance } from "../photometry/index.ts";
import { pointsOfFront, rimOfFront } from "./catchlight-sources.ts";
import { signedArea } from "./cornea-polygons.ts";
import {
  isOnLens,
  type LensPlace,
  lensArea,
  mirrorOnLens,
  type WorldLens,
  writeOnLens,
} from "./glasses-lens.ts";
import { frontLuminance } from "./spot.ts";

/** Places over the lens, across and up. */
const COLUMNS = 24;
const ROWS = 16;
/** Points of a light that are looked for on the lens by themselves. */
const POINTS = 16;
/** A reflection under this share of the lens is measured by its outline: too few places fall on it. */
const SMALL = 0.04;
/** Rays start this far off the lens, metres. */
const LIFT = 2e-4;
const FAR = 1e6;
/** Refractive index of lenses, as published-checks section 10 gives it for glass. */
const LENS_INDEX = 1.5;

/** What a lens shows of one light or panel. */
export interface OnLens {
  readonly kind: "light" | "panel";
  readonly index: number;
  /** of what the camera sees of the lens */
  share: number;
  overPupil: boolean;
  /** luminance as a bare lens mirrors it, the mean over the reflection: a light's per lm.s; Infinity for a bare point */
  perLumen: number;
  /** of a panel: per tile its part of the reflection, times what a bare lens reflects */
  readonly tiles: Map<number, number>;
}

export class LensRays {
  private readonly at = new Float64Array(6);
  private readonly way = new Float64Array(3);
  private readonly start = new Float64Array(3);
  private readonly grid: LensPlace[] = [];

  constructor(
    readonly tracer: Tracer,
    readonly lens: WorldLens,
    readonly camera: readonly number[],
  ) {
    for (let j = 0; j < ROWS; j++)
      for (let i = 0; i < COLUMNS; i++) {
        const place: LensPlace = [
          lens.halfWidth * ((2 * i + 1) / COLUMNS - 1),
          lens.halfHeight * ((2 * j + 1) / ROWS - 1),
        ];
        if (isOnLens(lens, place)) this.grid.push(place);
      }
  }

  /** All lights and panels that the lens mirrors into the camera; `pupil`: places of the lens before the pupil. */
  all(pupil: readonly LensPlace[]): OnLens[] {
    const found = new Map<string, OnLens>();
    const seen = this.seenByCamera(this.grid);
    let whole = 0;
    this.grid.forEach((place, i) => {
      if (!seen[i]) return;
      const weight = this.aimAt(place);
      if (!(weight > 0)) return;
      whole += weight;
      const hit = this.cast(found);
      if (!hit) return;
      hit.share += weight;
      const bare = 1 - paneTransmittance(this.angle, LENS_INDEX);
      if (hit.kind === "panel") {
        const { tile } = this.tracer;
        hit.tiles.set(tile, (hit.tiles.get(tile) ?? 0) + weight * bare);
      } else {
        const [x, y, z] = this.start;
        const [dx, dy, dz] = this.way;
        hit.perLumen += weight * bare * frontLuminance(this.tracer, dx, dy, dz, x, y, z);
      }
    });
    for (const hit of found.values()) {
      hit.perLumen /= hit.share;
      for (const [tile, sum] of hit.tiles) hit.tiles.set(tile, sum / hit.share);
      hit.share /= whole;
    }
    this.addSmall(found);
    this.markPupil(found, pupil);
    return [...found.values()];
  }

  /** Whether none of these lights shows on the lens. */
  isClearOf(lights: readonly number[]): boolean {
    const { emitters } = this.tracer.scene;
    for (const place of this.grid) {
      if (!(this.aimAt(place) > 0)) continue;
      const [x, y, z] = this.start;
      const [dx, dy, dz] = this.way;
      for (const l of lights)
        if (hitEmitter(emitters[l], x, y, z, dx, dy, dz, FAR) > 0 && this.shows(place, l)) return false;
    }
    return !lights.some((l) => this.pointsOn(l).some((p) => this.shows(p, l)));
  }

  /** Lights whose reflection falls between the places of the grid, and bare points. */
  private addSmall(found: Map<string, OnLens>) {
    this.tracer.scene.emitters.forEach((e, l) => {
      const key = `light ${l}`;
      const kept = found.get(key);
      if (kept && kept.share >= SMALL) return;
      const points = this.pointsOn(l);
      const shown = points.filter((p) => this.shows(p, l));
      if (shown.length === 0) return;
      const hit = kept ?? newOnLens("light", l);
      found.set(key, hit);
      hit.share = this.sizeOn(e) * (shown.length / points.length);
      if (kept) return;
      let sum = 0;
      for (const place of shown) {
        this.aimAt(place);
        const bare = 1 - paneTransmittance(this.angle, LENS_INDEX);
        if (e.shape === "point") sum = Number.POSITIVE_INFINITY;
        else if (this.cast(new Map())) {
          const [x, y, z] = this.start;
          const [dx, dy, dz] = this.way;
          sum += bare * frontLuminance(this.tracer, dx, dy, dz, x, y, z);
        }
      }
      hit.perLumen = sum / shown.length;
    });
  }

  /** Where a light's points are mirrored, those that fall beside the lens included. */
  private pointsOn(l: number): LensPlace[] {
    const e = this.tracer.scene.emitters[l];
    const { data, count } = pointsOfFront(e, POINTS);
    const out: LensPlace[] = [];
    for (let i = 0; i < count; i++) {
      const at = PART_STRIDE * i;
      const place = mirrorOnLens(this.lens, this.camera, data.subarray(at, at + 3));
      if (place) out.push(place);
    }
    return out;
  }

  /** Size of a light's whole reflection over that of the lens. */
  private sizeOn(e: Emitter): number {
    if (e.shape === "point") return 0;
    const rim = rimOfFront(e).map((p) => mirrorOnLens(this.lens, this.camera, p));
    const places = rim.flatMap((p): [number, number][] => (p ? [[p[0], p[1]]] : []));
    return Math.min(1, Math.abs(signedArea(places)) / lensArea(this.lens));
  }

  /** Whether the camera sees this light at a place of the lens. */
  private shows(place: LensPlace, l: number): boolean {
    if (!isOnLens(this.lens, place) || !this.seenByCamera([place])[0] || !(this.aimAt(place) > 0))
      return false;
    const { tracer } = this;
    const e = tracer.scene.emitters[l];
    const [x, y, z] = this.start;
    if (e.shape !== "point") {
      this.closest();
      return tracer.kind === HIT.emitter && tracer.index === l && tracer.fromFront;
    }
    const d = [e.centre[0] - x, e.centre[1] - y, e.centre[2] - z];
    const far = Math.hypot(d[0], d[1], d[2]);
    const ahead = -(d[0] * e.forward[0] + d[1] * e.forward[1] + d[2] * e.forward[2]);
    if (e.distribution === null && !(ahead > 0)) return false;
    return !tracer.occluded(x, y, z, d[0] / far, d[1] / far, d[2] / far, far, l);
  }

  private markPupil(found: Map<string, OnLens>, pupil: readonly LensPlace[]) {
    const over = new Map<OnLens, number>();
    for (const place of pupil) {
      if (!isOnLens(this.lens, place) || !(this.aimAt(place) > 0)) continue;
      const hit = this.cast(found);
      if (hit) over.set(hit, (over.get(hit) ?? 0) + 1);
    }
    for (const [hit, count] of over) hit.overPupil = 2 * count >= pupil.length;
  }

  /** What the ray that was aimed last meets, if it is a light's front or a panel. */
  private cast(found: Map<string, OnLens>): OnLens | null {
    this.closest();
    const { kind, index, fromFront } = this.tracer;
    if (kind !== HIT.quad && !(kind === HIT.emitter && fromFront)) return null;
    const name = kind === HIT.quad ? "panel" : "light";
    const key = `${name} ${index}`;
    const hit = found.get(key) ?? newOnLens(name, index);
    found.set(key, hit);
    return hit;
  }

  private closest() {
    const [x, y, z] = this.start;
    const [dx, dy, dz] = this.way;
    this.tracer.closest(x, y, z, dx, dy, dz, FAR, true);
  }

  private angle = 0;

  /** Prepares the ray that the camera sees mirrored at a place. Size of that place as the camera sees it, over its flat
   * size; nothing where it shows the camera its back. */
  private aimAt(place: LensPlace): number {
    const { at, way, start, camera, lens } = this;
    writeOnLens(lens, place, at);
    const vx = camera[0] - at[0];
    const vy = camera[1] - at[1];
    const vz = camera[2] - at[2];
    const far = Math.sqrt(vx * vx + vy * vy + vz * vz);
    const cosine = (vx * at[3] + vy * at[4] + vz * at[5]) / far;
    this.angle = Math.acos(Math.max(0, Math.min(1, cosine)));
    way[0] = 2 * cosine * at[3] - vx / far;
    way[1] = 2 * cosine * at[4] - vy / far;
    way[2] = 2 * cosine * at[5] - vz / far;
    for (let k = 0; k < 3; k++) start[k] = at[k] + LIFT * at[k + 3];
    const straight = at[3] * lens.ahead[0] + at[4] * lens.ahead[1] + at[5] * lens.ahead[2];
    return cosine / straight;
  }

  private seenByCamera(places: readonly LensPlace[]): boolean[] {
    const { at, camera, tracer } = this;
    places.forEach((place, i) => {
      writeOnLens(this.lens, place, at);
      tracer.aim(i, at[0] - camera[0], at[1] - camera[1], at[2] - camera[2]);
    });
    tracer.look(places.length, camera[0], camera[1], camera[2], -1);
    return places.map((_, i) => tracer.seen[i] === 1);
  }
}

function newOnLens(kind: OnLens["kind"], index: number): OnLens {
  return { kind, index, share: 0, overPupil: false, perLumen: 0, tiles: new Map() };
}
