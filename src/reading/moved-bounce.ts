/** What comes back to a face from room, panels and its own body, by how far it has moved: looked for at the knots of a
 * lattice, when first asked, and drawn between them. */
import { behindPlates, type Tracer } from "../engine/index.ts";
import type { StagedPerson } from "../staging/index.ts";
import { type FaceShares, weigh, worldSamples } from "./face-light.ts";
import { type FaceSamples, faceSamples, nearestSample } from "./face-samples.ts";
import { type Lighting, WORK } from "./lighting.ts";
import type { Moved } from "./moved-face.ts";
import { lookRound } from "./skin-rays.ts";

/** Knots so far apart: bounce from walls and boards changes evenly over that; light through a cloth throws shadows. */
const KNOTS = { bounce: { metres: 0.25, degrees: 12 }, through: { metres: 0.12, degrees: 6 } } as const;
/** Samples that look round, so far apart, metres; through a cloth all of them do. */
const THIN_SPACING = 0.024;

interface Movable {
  staged(moved: Moved): StagedPerson;
  tracer(staged: StagedPerson): Tracer;
  /** by light: how much more of it arrives at the person than as planned */
  gains(staged: StagedPerson): readonly number[];
}

export class MovedBounce {
  private readonly thin: FaceSamples;
  /** the thin sample next to each sample */
  private readonly nearest: Int32Array;
  /** as the plan's own reading has it, lx.s at every sample */
  private readonly planned: Float64Array;
  private readonly sends: readonly Float64Array[];
  private readonly own: Uint8Array;
  private readonly knots: { readonly metres: number; readonly degrees: number };
  private readonly known = new Map<string, Float64Array>();
  private readonly start: Float64Array;

  constructor(
    private readonly lighting: Lighting,
    meshes: readonly number[],
    shares: FaceShares,
    private readonly movable: Movable,
  ) {
    const { stage, exitance } = lighting;
    const isThrough = exitance.some(({ through }, l) => stage.lights[l].on && through.some((x) => x > 0));
    this.knots = isThrough ? KNOTS.through : KNOTS.bounce;
    const { samples } = shares;
    this.thin = isThrough
      ? samples
      : faceSamples(stage.people[ownerOf(lighting, meshes)].shape.head, THIN_SPACING);
    this.nearest = Int32Array.from({ length: samples.count }, (_, s) => nearestSample(this.thin, samples, s));
    this.sends = exitance.map((_, l) => sentByTile(lighting, l));
    this.own = new Uint8Array(this.sends[0]?.length ?? 0);
    for (const m of meshes)
      for (const tile of stage.scene.meshes[m].tileOfTriangle) if (tile >= 0) this.own[tile] = 1;
    this.start = this.at(0, 0, 0, 0);
    this.planned = isThrough ? this.start : plannedBounce(lighting, shares);
  }

  /** Adds what comes back, lx.s, to every sample. */
  add(moved: Moved, out: Float64Array) {
    if (this.sends.length === 0) return;
    const { metres, degrees } = this.knots;
    const place = [moved.aside / metres, moved.ahead / metres, moved.turn / degrees, moved.tip / degrees];
    const low = place.map(Math.floor);
    const over = place.map((x, k) => x - low[k]);
    for (let s = 0; s < out.length; s++) out[s] += this.planned[s];
    // only corners that count are looked for: a head that turns where it is asks two of sixteen
    for (let corner = 0; corner < 16; corner++) {
      let weight = 1;
      for (let k = 0; k < 4; k++) weight *= corner & (1 << k) ? over[k] : 1 - over[k];
      if (weight === 0) continue;
      const at = low.map((x, k) => x + ((corner >> k) & 1));
      const knot = this.at(at[0], at[1], at[2], at[3]);
      for (let s = 0; s < out.length; s++)
        out[s] += weight * (knot[this.nearest[s]] - this.start[this.nearest[s]]);
    }
    for (let s = 0; s < out.length; s++) out[s] = Math.max(0, out[s]);
  }

  /** At one knot, for the thin samples. */
  private at(aside: number, ahead: number, turn: number, tip: number): Float64Array {
    const key = `${aside} ${ahead} ${turn} ${tip}`;
    const kept = this.known.get(key);
    if (kept) return kept;
    const { metres, degrees } = this.knots;
    const out = this.look(
      this.movable.staged({
        aside: aside * metres,
        ahead: ahead * metres,
        turn: turn * degrees,
        tip: tip * degrees,
      }),
    );
    this.known.set(key, out);
    return out;
  }

  private look(staged: StagedPerson): Float64Array {
    const world = worldSamples(staged, this.thin);
    const gather = lookRound(this.movable.tracer(staged), world, WORK.coarse.faceGather);
    const visible = behindPlates(gather, this.lighting.stage.scene.emitters);
    return weigh(gather, visible, world, this.sentAt(this.movable.gains(staged)), 1);
  }

  /** What tiles send back, all lights together: those of the person by how much more or less reaches them. */
  private sentAt(gains: readonly number[]): Float64Array {
    const out = new Float64Array(this.own.length);
    this.sends.forEach((sends, l) => {
      for (let t = 0; t < out.length; t++) out[t] += this.own[t] ? gains[l] * sends[t] : sends[t];
    });
    return out;
  }
}

function ownerOf({ stage }: Lighting, meshes: readonly number[]): number {
  const owner = stage.owners[meshes[0]];
  return "person" in owner ? owner.person : 0;
}

/** lx.s that a tile of a light's bounce, and of what shines through it, adds to a receptor that it fills. */
function sentByTile({ stage, exitance }: Lighting, l: number): Float64Array {
  const { bounced, through } = exitance[l];
  const light = stage.lights[l];
  const out = new Float64Array(through.length);
  if (!light.on) return out;
  const [r, g, b] = light.meterWeights;
  for (let t = 0; t < out.length; t++)
    out[t] =
      light.lumenSeconds *
      ((r + g + b) * through[t] + r * bounced[3 * t] + g * bounced[3 * t + 1] + b * bounced[3 * t + 2]);
  return out;
}

/** The reading's own, where nothing shines through. */
function plannedBounce({ stage }: Lighting, { samples, bounced }: FaceShares): Float64Array {
  const out = new Float64Array(samples.count);
  stage.lights.forEach((light, l) => {
    if (!light.on) return;
    const [r, g, b] = light.meterWeights;
    for (let s = 0; s < out.length; s++)
      out[s] +=
        light.lumenSeconds * (r * bounced[l][3 * s] + g * bounced[l][3 * s + 1] + b * bounced[l][3 * s + 2]);
  });
  return out;
}
