/** Set-ups tried per second, as a search tries them: a new place for the light, its row, the pattern read. */
import { isMainThread, Worker, workerData } from "node:worker_threads";
import type { Emitter } from "../src/engine/index.ts";
import { checkPlan, type Plan } from "../src/plan/index.ts";
import { LOOK, LOOK_LENGTH, QuickSet } from "../src/reading/quick-set.ts";
import { stage } from "../src/staging/index.ts";
import type { Row } from "./work.ts";

const THREADS = 2;
const TRIED = 4000;
/** Milliseconds that so many may take: 10,000 a second. */
const ASKED = (1000 * TRIED) / 10_000;
/** How a set-up is tried. */
const WAYS = ["bare", "room", "looked at first"] as const;
type Way = (typeof WAYS)[number];
/** Cheeks apart by less or more than this, stops, need no pattern where the brief asks for something between. */
const LEAST = 1;
const MOST = 2;
const PLACES = 512;

interface Shared {
  readonly finderThreads: true;
  /** [threads ready, runs asked for, runs done, way of the run, threads that take part] */
  readonly state: Int32Array;
}

function room(): Plan {
  const white = { floor: 0.4, ceiling: 0.85, near: 0.8, far: 0.8, left: 0.8, right: 0.8 };
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    title: "A white room",
    room: { width: 4, depth: 5, height: 2.8, reflectance: white },
    lights: [
      {
        name: "key",
        position: [3, 1.4, 2.1],
        direction: { at: [2, 2.6, 1.6] },
        face: { shape: "rectangle", width: 0.6, height: 0.9 },
        output: { lumenSeconds: 1000 },
      },
    ],
    people: [{ name: "sitter", position: [2, 2.6], stature: 1.7, facing: 180 }],
    camera: {
      position: [2, 0.5, 1.5],
      direction: { bearing: 0, tilt: 0 },
      focalLength: 85,
      fNumber: 8,
      sensor: { width: 36, height: 24 },
    },
  });
  if (!checked.ok) throw new Error(checked.problems[0].what);
  return checked.plan;
}

/** Tries set-ups one after the other; how many it read in full. */
function trier(): (way: Way, count: number) => number {
  const plan = room();
  const { scene, people } = stage(plan);
  const places = around(scene.emitters[0], people[0].headOffset);
  const bare = new QuickSet(plan, 0, { bounce: false });
  const whole = new QuickSet(plan, 0);
  const row = new Float64Array(whole.rowLength);
  const look = new Float64Array(LOOK_LENGTH);
  const front = whole.front(scene.emitters[0]);
  return (way, count) => {
    const set = way === "bare" ? bare : whole;
    let read = 0;
    for (let k = 0; k < count; k++) {
      const e = places[k % PLACES];
      if (way === "looked at first") {
        set.writeLook(e, front, look);
        const apart = Math.abs(Math.log2(look[LOOK.leftCheek] / look[LOOK.rightCheek]));
        if (!(apart >= LEAST && apart <= MOST)) continue;
      }
      set.writeRow(e, front, row);
      for (let s = 0; s < row.length; s++) row[s] *= 1000;
      set.read(row);
      read++;
    }
    return read;
  };
}

/** Evenly over the front, 1 to 2 m off. */
function around(light: Emitter, ears: Float64Array): Emitter[] {
  return Array.from({ length: PLACES }, (_, k) => {
    const azimuth = (((k * 0.618034) % 1) * 2 - 1) * 1.6;
    const elevation = ((k * 0.754878) % 1) * 1.1 - 0.2;
    const distance = 1 + ((k * 0.569841) % 1);
    const [ca, sa, ce, se] = [Math.cos(azimuth), Math.sin(azimuth), Math.cos(elevation), Math.sin(elevation)];
    const out = [sa * ce, -ca * ce, se];
    return {
      ...light,
      centre: Float64Array.from(out, (d, i) => ears[i] + distance * d),
      forward: Float64Array.from(out, (d) => -d),
      right: Float64Array.of(-ca, -sa, 0),
      up: Float64Array.of(-sa * se, ca * se, ce),
    };
  });
}

/** What a thread of the bench does: nothing but wait and try. */
function serve({ state }: Shared) {
  const work = trier();
  for (const way of WAYS) work(way, PLACES);
  const me = Atomics.add(state, 0, 1);
  Atomics.notify(state, 0);
  for (let run = 0; ; run++) {
    Atomics.wait(state, 1, run);
    const threads = state[4];
    if (me < threads) work(WAYS[state[3]], TRIED / threads);
    Atomics.add(state, 2, 1);
    Atomics.notify(state, 2);
  }
}

if (!isMainThread && (workerData as Shared | null)?.finderThreads) serve(workerData as Shared);

export function finderRows(): Row[] {
  const state = new Int32Array(new SharedArrayBuffer(5 * Int32Array.BYTES_PER_ELEMENT));
  const shared: Shared = { finderThreads: true, state };
  let started = false;
  const start = () => {
    if (started) return;
    started = true;
    for (let i = 0; i < THREADS; i++) new Worker(new URL(import.meta.url), { workerData: shared }).unref();
    waitFor(state, 0, THREADS);
  };
  const run = (clock: () => number, way: Way, threads: number) => {
    start();
    const done = state[2];
    state[3] = WAYS.indexOf(way);
    state[4] = threads;
    const from = clock();
    Atomics.add(state, 1, 1);
    Atomics.notify(state, 1);
    waitFor(state, 2, done + THREADS);
    return clock() - from;
  };
  const inFull = trier()("looked at first", PLACES) / PLACES;
  const names: Record<Way, string> = {
    bare: "no room",
    room: "with a white room's light",
    "looked at first": `with a white room's light, ${Math.round(100 * inFull)} in 100 read in full after a first look at the cheeks`,
  };
  return WAYS.map((way) => ({
    name: `${TRIED} set-ups tried by two threads, a softbox moved, pattern read, ${names[way]}`,
    against: "by one thread",
    asked: ASKED,
    runs: 5,
    once: (c) => ({ ours: run(c, way, THREADS), other: run(c, way, 1) }),
  }));
}

function waitFor(state: Int32Array, at: number, value: number) {
  for (let now = Atomics.load(state, at); now < value; now = Atomics.load(state, at))
    Atomics.wait(state, at, now);
}
