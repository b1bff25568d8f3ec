/** A few traced readings of one set-up, from which what is not known can be weighed without tracing again. */
import type { Meter, Plan, ReadingPlace, StandingLight } from "../plan/index.ts";
import {
  type CheekShares,
  type Gauged,
  gauge,
  type KeepGoing,
  type Memory,
  type Quality,
  type Share,
} from "../reading/index.ts";
import type { HeadTerm } from "./calibrate-model.ts";

/** The room's bounce is traced as written and so many stops to either side; between them log2 of it is a parabola. */
const BOUNCE_NODE = 1.5;
/** Beams are traced with so much more and less on the axis, stops; where a front can be no wider, with more and more. */
const BEAM_NODES = [-0.5, 0.5] as const;
const NARROWER_NODES = [0.5, 1] as const;

export interface TraceTask {
  readonly plan: Plan;
  readonly lights: readonly StandingLight[];
  /** per light, which head it is */
  readonly heads: readonly number[];
  readonly places: readonly ReadingPlace[];
  /** whose cheeks as well */
  readonly people: readonly number[];
  /** whether other beams are tried: it takes two traces more */
  readonly beams: boolean;
  readonly quality: Quality;
}

/** What every light gives, by name, and the ambient light. */
export interface TracedPlace {
  readonly terms: ReadonlyMap<string, HeadTerm>;
  readonly ambient: number;
}

export interface Traced {
  readonly places: readonly TracedPlace[];
  /** own left and own right cheek of each person asked for */
  readonly cheeks: readonly { readonly left: TracedPlace; readonly right: TracedPlace }[];
}

type Shares = Readonly<Record<string, Share>>;
/** As written; two beams; the room sending back less and more. */
interface Variants<T> {
  readonly asWritten: T;
  readonly beams: readonly [T, T] | null;
  readonly rooms: readonly [T, T] | null;
}

export function traceSetUp(task: TraceTask, memory: Memory, keepGoing: KeepGoing): Traced {
  const { lights, plan } = task;
  const nodes = lights.map((light) => beamNodes(light));
  const bounces = plan.room?.bounce === true;
  const traces = 1 + (task.beams ? 2 : 0) + (bounces ? 2 : 0);
  let done = 0;
  const traced = (bounce: number, beam: 0 | 1 | null): Gauged => {
    const setUp = asSetUp(task, bounce, (l) => (beam === null ? 0 : nodes[l][beam]));
    const share = (part: number) => keepGoing((done + part) / traces);
    const gauged = gauge(setUp, task.people, task.quality, memory, share);
    done++;
    return gauged;
  };
  // what the beams share with the plan as written is still known when they are traced
  const all: Variants<Gauged> = {
    asWritten: traced(0, null),
    beams: task.beams ? [traced(0, 0), traced(0, 1)] : null,
    rooms: bounces ? [traced(-BOUNCE_NODE, null), traced(BOUNCE_NODE, null)] : null,
  };
  const place = (of: (gauged: Gauged) => Shares): TracedPlace => {
    const shares: Variants<Shares> = {
      asWritten: of(all.asWritten),
      beams: all.beams && [of(all.beams[0]), of(all.beams[1])],
      rooms: all.rooms && [of(all.rooms[0]), of(all.rooms[1])],
    };
    const terms = lights.map(
      (light, l) => [light.name, termOf(shares, light.name, task.heads[l], nodes[l])] as const,
    );
    const ambient = shares.asWritten.ambient;
    return { terms: new Map(terms), ambient: ambient === undefined ? 0 : ambient.direct + ambient.bounced };
  };
  const cheek = (person: number, side: keyof CheekShares) => place((gauged) => gauged.cheeks[person][side]);
  return {
    places: task.places.map((_, i) => place((gauged) => gauged.meters[i].byLight)),
    cheeks: task.people.map((_, i) => ({ left: cheek(i, "left"), right: cheek(i, "right") })),
  };
}

/** The plan with these lights, all on and as their output says, and a meter at every place. */
function asSetUp(
  { plan, lights, places }: TraceTask,
  bounceStops: number,
  beamStops: (light: number) => number,
): Plan {
  const meters: Meter[] = places.map((place, i) => ({ name: `place ${i}`, ...place, pinned: false }));
  const { room } = plan;
  return {
    ...plan,
    room: room && {
      ...room,
      calibration: bounceStops === 0 ? null : { bounceStops, uncertaintyStops: 0, measuredOn: "" },
    },
    lights: lights.map((light, l) => ({
      ...light,
      on: true,
      beam: beamStops(l) === 0 ? light.beam : { ...light.beam, exponent: exponentAt(light, beamStops(l)) },
      dial: { marked: "stops", range: 0, step: 1 },
      head: null,
      support: null,
      calibration: null,
      pinned: false,
    })),
    meters,
    readings: [],
  };
}

/** Beam stops are what its axis gets more at the same energy: log2 of (m + 1) over what is written. */
export function exponentAt({ beam, face }: Pick<StandingLight, "beam" | "face">, beamStops: number): number {
  const { least, most } = exponents(face);
  return Math.min(most, Math.max(least, (beam.exponent + 1) * 2 ** beamStops - 1));
}

/** How far a beam can go either way, stops; nowhere where a photometric file says how it spreads. */
export function beamBounds({ beam, face }: Pick<StandingLight, "beam" | "face">): readonly [number, number] {
  if (beam.photometry !== undefined) return [0, 0];
  const { least, most } = exponents(face);
  return [Math.log2((least + 1) / (beam.exponent + 1)), Math.log2((most + 1) / (beam.exponent + 1))];
}

/** Of the plan format. */
function exponents(face: StandingLight["face"]) {
  return { least: face.shape === "point" ? 0 : 1, most: 60 };
}

function beamNodes(light: StandingLight): readonly [number, number] {
  const [least, most] = beamBounds(light);
  const fits = (nodes: readonly [number, number]) => nodes[0] >= least && nodes[1] <= most;
  return [BEAM_NODES, NARROWER_NODES].find(fits) ?? [0, 0];
}

function termOf(
  { asWritten, beams, rooms }: Variants<Shares>,
  name: string,
  head: number,
  nodes: readonly [number, number],
): HeadTerm {
  const { direct, bounced } = asWritten[name];
  const term = { head, direct, axis: 0, aside: 0, bounced, once: 0, twice: 0, spread: 0 };
  if (beams !== null && nodes[0] !== nodes[1]) {
    const at = [0, 1].map((k) => stopsFrom(direct, beams[k][name].direct));
    const bend = nodes.map((p) => 2 ** p - 1);
    const det = nodes[0] * bend[1] - nodes[1] * bend[0];
    term.axis = (at[0] * bend[1] - at[1] * bend[0]) / det;
    term.aside = (nodes[0] * at[1] - nodes[1] * at[0]) / det;
    term.spread = stopsFrom(bounced, beams[1][name].bounced) / nodes[1];
  }
  if (rooms !== null) {
    const [less, more] = rooms.map((room) => stopsFrom(bounced, room[name].bounced));
    term.once = (more - less) / (2 * BOUNCE_NODE);
    term.twice = (more + less) / (2 * BOUNCE_NODE ** 2);
  }
  return term;
}

/** 0 where there is nothing to compare. */
function stopsFrom(before: number, after: number): number {
  return before > 0 && after > 0 ? Math.log2(after / before) : 0;
}
