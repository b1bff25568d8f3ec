/** Patterns on the face: loop's published range, the manuals' set-ups as they stand in examples/, and what happens to a
 * face that follows the lens while the camera walks round under a large light overhead. */
import { readFileSync } from "node:fs";
import { parsePlan } from "../src/plan/index.ts";
import { Memory, type Pattern, patternOf, readPlan } from "../src/reading/index.ts";
import type { Check } from "./checks.ts";
import { type Cell, cellAt } from "./pattern-grid.ts";
import { once, planOf } from "./plans.ts";

const LOOP = "portraitlighting.net, patterns: loop 20° to 50° round, 25° to 60° up";
const STEP = 5;
/** Loop, or another name that a quarter of a stop makes loop; not the level light for which there is no name. */
const isLoop = (azimuth: number, elevation: number) => {
  const { pattern, between } = cellAt("medium", azimuth, elevation);
  return pattern === "loop" ? between !== "flat" : between === "loop";
};
const degrees = (from: number, to: number) =>
  Array.from({ length: (to - from) / STEP + 1 }, (_, i) => from + STEP * i);
/** Where loop is named on the lines through the middle of the other range; the borders lie half a step outside. */
const round = once(() => degrees(0, 90).filter((az) => isLoop(az, 42.5)));
const up = once(() => degrees(-10, 80).filter((el) => isLoop(35, el)));

const border = (id: string, what: string, published: number, ours: () => number): Check => ({
  id: `9 loop ${id}`,
  what: `loop or within a quarter of a stop of it, 0.6 m front, ${what}, degrees`,
  source: LOOP,
  published,
  ours,
  tolerance: 10,
  absolute: true,
  why: "published in round numbers, for no size of light and no one face",
});

function example(name: string) {
  const parsed = parsePlan(readFileSync(`examples/${name}.json`, "utf8"));
  if (!parsed.ok) throw new Error(parsed.problems[0].what);
  return parsed.plan;
}

const NAVY = "US Navy NAVEDTRA 14209, chapter 7";
const face = new Map<string, ReturnType<typeof readFace>>();
function readFace(name: string) {
  return readPlan(example(name), "fine", new Memory()).people[0].face;
}
function faceOf(name: string) {
  let read = face.get(name);
  if (!read) {
    read = readFace(name);
    face.set(name, read);
  }
  return read;
}

const kept = (id: string, what: string, source: string, holds: () => boolean): Check => ({
  id: `9 ${id}`,
  what,
  source,
  published: 1,
  ours: () => (holds() ? 1 : 0),
  tolerance: 0,
  why: "it does (1) or it does not (0)",
});

const PRACTICE = "common practice, no published source";
/** The head follows the lens; a front of 1.2 m hangs before the sitter and overhead. The camera walks round to its right:
 * the far cheek is then the own right one. */
const CAMERA_AWAY = 2.6;
function seenFrom(bearing: number): Cell {
  const eyes = [0, 0, 1.58];
  const way = (bearing * Math.PI) / 180;
  const plan = planOf({
    lights: [
      {
        name: "key",
        position: [0, -1.0, 2.6],
        direction: { at: [0, -0.1, 1.58] },
        face: { shape: "polygon", sides: 8, width: 1.2 },
        output: { meter: { fNumber: 8, distance: 1.36 } },
      },
    ],
    people: [{ name: "sitter", position: [0, 0], stature: 1.7, head: { follows: "camera" } }],
    camera: {
      position: [CAMERA_AWAY * Math.sin(way), -CAMERA_AWAY * Math.cos(way), 1.58],
      direction: { at: eyes },
    },
  });
  return patternOf(plan, 0, new Memory(), [0])[0];
}
const WALK = [0, 10, 20, 30, 40, 50, 60, 70];
const walk = (side: 1 | -1) => once(() => WALK.map((bearing) => seenFrom(side * bearing)));
const toRight = walk(1);
const toLeft = walk(-1);
const OPEN: readonly Pattern[] = ["flat", "butterfly"];

/** First of evenly lit or the middle, then loop, then closed: each for at least one step, none twice. */
function opensThroughLoopToClosed(cells: readonly Cell[]): boolean {
  const stages = cells.map(({ pattern: p }) =>
    OPEN.includes(p) ? 0 : p === "loop" ? 1 : p === "rembrandt" ? 2 : 3,
  );
  const order = stages.filter((stage, i) => i === 0 || stage !== stages[i - 1]);
  return order.join().startsWith("0,1,2");
}

function isSame(a: Cell, b: Cell): boolean {
  return a.pattern === b.pattern || a.between === b.pattern || b.between === a.pattern;
}

export const checks: Check[] = [
  border("from", "named from so far round at 42.5° up", 20, () => round()[0]),
  border("to", "named to so far round at 42.5° up", 50, () => round()[round().length - 1]),
  border("low", "named from so far up at 35° round", 25, () => up()[0]),
  border("high", "named to so far up at 35° round", 60, () => up()[up().length - 1]),
  kept(
    "manual broad",
    "examples/manual-broad reads broad",
    NAVY,
    () => faceOf("manual-broad").side === "broad",
  ),
  kept(
    "manual short",
    "examples/manual-short reads short",
    NAVY,
    () => faceOf("manual-short").side === "short",
  ),
  ...(["butterfly", "rembrandt", "split", "rim"] as const).map((name) =>
    kept(
      `manual ${name}`,
      `examples/manual-${name} reads ${name}`,
      name === "rembrandt" ? "US Army SS0510: the nose's shadow merges with the cheek's" : NAVY,
      () => faceOf(`manual-${name}`).pattern === name,
    ),
  ),
  kept(
    "walk right",
    "head follows the lens, light overhead in front: camera round to its right takes the far cheek from even through loop to a closed triangle",
    PRACTICE,
    () => opensThroughLoopToClosed(toRight()),
  ),
  kept("walk left", "the same to the left: the same names, mirrored", PRACTICE, () =>
    opensThroughLoopToClosed(toLeft()),
  ),
  kept(
    "walk even",
    "the same: both ways at the same angles, or within a quarter of a stop of it",
    PRACTICE,
    () => toLeft().every((cell, i) => isSame(cell, toRight()[i])),
  ),
];
