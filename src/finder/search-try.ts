/** One set-up tried: a main light at a spot, with or without something second, powers set on their dials, read and
 * judged. */
import type { Light, Panel, Plan } from "../plan/index.ts";
import type { TryReading } from "../reading/index.ts";
import { ROW_TAIL } from "../reading/index.ts";
import { type StagedPerson, stagePerson } from "../staging/index.ts";
import type { Head, Search } from "./search-brief.ts";
import { Joining, type Lesson, type Second } from "./search-join.ts";
import { cheekCost, costOf, edginess, type Seen } from "./search-judge.ts";
import type { FaceModel, Row } from "./search-model.ts";
import { bridgeOf, Clearances, placedAt, type Spot } from "./search-place.ts";
import { dialled } from "./search-power.ts";

const DEGREE = Math.PI / 180;

export interface Tried {
  readonly spot: Spot;
  readonly plan: Plan;
  readonly seen: Seen;
  readonly cost: number;
  /** by which those of equal cost are put in order as well: cost, and how near to an end of a range */
  readonly rank: number;
}

export class SetUpTrier {
  tried = 0;
  private readonly clear: Clearances;
  private readonly main: Row;
  private readonly sum: Row;
  private readonly joining: Joining;
  private readonly people: readonly StagedPerson[];

  constructor(
    readonly search: Search,
    readonly model: FaceModel,
    private readonly head: Head,
    private readonly front: Light,
    seconds: readonly Second[],
    private readonly lesson: Lesson,
  ) {
    const { plan } = model;
    this.clear = new Clearances(plan);
    this.main = model.newRow();
    this.sum = model.newRow();
    this.people = plan.people.map((who) => stagePerson(who, plan));
    this.joining = new Joining(search, model, head, seconds, lesson);
  }

  /** Null where the light cannot stand there, or where it is worse than `cutoff`: much of that is known before the face
   * is read. */
  at(spot: Spot, cutoff = Number.POSITIVE_INFINITY): Tried | null {
    const { model, lesson, main: row } = this;
    const { base } = model;
    const light = placedAt(model.staged, this.front, spot);
    if (this.clear.obstacle(light, this.head.stand) !== null) return null;
    model.writeLight(light, row);
    model.addEven(row, lesson.evenPerLumen * model.lumensOf(light));
    const shine = this.joining.background?.shine(light) ?? 0;
    const found = this.joining.powers(spot, light, row, shine);
    if (found === null) return null;
    const { second, powers } = found;
    const s = 2 ** -powers.down;
    const t = powers.with;
    const left = base.left + s * row.left + (second === null ? 0 : t * second.row.left);
    const right = base.right + s * row.right + (second === null ? 0 : t * second.row.right);
    if (cheekCost(this.search.want, left, right, model) > cutoff) return null;
    this.tried++;
    this.add(base, row, s, second?.row ?? null, t);
    const main = dialled(light, powers.down);
    const most = s * row.total;
    if (second === null || second.kind === "panel") {
      const panels = second === null ? [] : [second.panel];
      const strongest = this.strongestOf(main, most, null, 0);
      return this.judged(spot, [main], panels, strongest, this.joining.baseShine + s * shine, cutoff);
    }
    const other = dialled(second.light, -Math.log2(t));
    const strongest = this.strongestOf(main, most, other, t * second.row.total);
    return this.judged(
      spot,
      [main, other],
      [],
      strongest,
      this.joining.baseShine + s * shine + t * second.shine,
      cutoff,
    );
  }

  /** Of those placed and those pinned, by what they give the face. */
  private strongestOf(main: Light, mainTotal: number, other: Light | null, otherTotal: number): Light {
    const { strongest: baseLight, most: baseMost } = this.model.pinned;
    const placed = other !== null && otherTotal > mainTotal ? other : main;
    return baseLight !== null && baseMost > Math.max(mainTotal, otherTotal) ? baseLight : placed;
  }

  private add(base: Row, a: Row, s: number, b: Row | null, t: number) {
    const { values } = this.sum;
    for (let i = 0; i < values.length; i++)
      values[i] = base.values[i] + s * a.values[i] + (b === null ? 0 : t * b.values[i]);
  }

  private judged(
    spot: Spot,
    lights: readonly Light[],
    panels: readonly Panel[],
    strongest: Light,
    shines: number,
    cutoff: number,
  ): Tried | null {
    const { model, search, lesson } = this;
    const { plan } = model;
    const read = model.set.read(this.sum.values);
    const background = this.joining.background?.stops(shines, read.litCheek) ?? null;
    const reading: TryReading = {
      ...read,
      side: model.sideOf(read.litSide),
      light: this.arriving(),
      shadowEdgeMillimetres: null,
      catchlights: model.catchlights(strongest),
      backgroundStops: background === null ? null : background + lesson.backgroundOff,
      headroomStops: null,
      litCheeks: this.litCheeks(lights, read.litCheek),
    };
    let seen: Seen = { reading, iso: plan.camera.iso, strongest: strongest.name };
    if (search.want.shadowEdgeMillimetres !== null) {
      // the edge takes longest: not where the rest is bad enough
      if (costOf(search.want, seen, "shadowEdgeMillimetres") > cutoff) return null;
      const edge = model.edgeOf(strongest, read.litSide);
      seen = {
        ...seen,
        reading: { ...reading, shadowEdgeMillimetres: edge === null ? null : edge * lesson.edgeFactor },
      };
    }
    const cost = costOf(search.want, seen);
    return {
      spot,
      plan: {
        ...plan,
        lights: [...plan.lights, ...lights],
        panels: [...plan.panels, ...panels],
      },
      seen,
      cost,
      rank:
        cost +
        EDGINESS * edginess(search.want, seen) +
        HARDSHIP * hardship(spot) +
        (search.want.pattern !== null && read.between !== null ? lesson.firmness : 0),
    };
  }

  /** Of everybody, by how near the main light stands to each and how it falls off aside: nobody in another's light. */
  private litCheeks([main]: readonly Light[], own: number): number[] {
    const { plan, person } = this.model;
    if (this.search.want.spreadStops === null || plan.people.length < 2 || main === undefined) return [own];
    const here = this.sentTo(main, person);
    return plan.people.map((_, i) =>
      i === person || !(here > 0) ? own : (own * this.sentTo(main, i)) / here,
    );
  }

  private sentTo(light: Light, person: number): number {
    const { position, direction, beam } = light;
    const who = this.people[person];
    const [bx, by, bz] = bridgeOf(who);
    const way = [bx - position[0], by - position[1], bz - position[2]];
    const at = "at" in direction ? direction.at : [bx, by, bz];
    const aim = [at[0] - position[0], at[1] - position[1], at[2] - position[2]];
    const far = Math.hypot(way[0], way[1], way[2]);
    const cosine =
      (way[0] * aim[0] + way[1] * aim[1] + way[2] * aim[2]) / (far * Math.hypot(aim[0], aim[1], aim[2]));
    return cosine > 0 ? cosine ** beam.exponent / (far * far) : 0;
  }

  private arriving(): TryReading["light"] {
    const tail = this.model.set.face.samples.count;
    const { values } = this.sum;
    const [ahead, left, up] = [
      values[tail + ROW_TAIL.ahead],
      values[tail + ROW_TAIL.left],
      values[tail + ROW_TAIL.up],
    ];
    const all = Math.hypot(ahead, left, up);
    if (!(all > 0)) return { azimuth: null, elevation: null };
    return { azimuth: Math.atan2(left, ahead) / DEGREE, elevation: Math.asin(up / all) / DEGREE };
  }
}

/** Far less than a miss that is noticed. */
const EDGINESS = 0.05;
const HARDSHIP = 0.02;

/** How unusual: light from far off or steep is harder to set up. */
function hardship({ distance_m, elevation_deg, past_m }: Spot): number {
  return Math.max(0, Math.log2(distance_m / 1.5)) + Math.abs(elevation_deg) / 90 + Math.abs(past_m);
}
