import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { checkPlan, type Plan } from "../plan/index.ts";
import { changeGroups, linesApart, planChanges } from "./index.ts";

function open(document: unknown): Plan {
  const checked = checkPlan(document);
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  return checked.plan;
}

const CELLIST = open(JSON.parse(readFileSync("examples/cellist.json", "utf8")));
const [KEY] = CELLIST.lights as [Plan["lights"][number]];
const [SITTER] = CELLIST.people as [Plan["people"][number]];
const withKey = (fields: Partial<Plan["lights"][number]>): Plan => ({
  ...CELLIST,
  lights: [{ ...KEY, ...fields }],
});
const said = (after: Plan, units: "metric" | "feet" = "metric", before = CELLIST) =>
  planChanges(before, after, units).map(
    ({ what, which, before: was, after: is, change }) => `${what}, ${which}: ${was} > ${is}, ${change}`,
  );

describe("[SO4] a change is said as a photographer would", () => {
  it("power in stops, and as the dial is marked", () => {
    const output = { ...KEY.output, stopsDown: 2.9 } as typeof KEY.output;
    expect(said(withKey({ output }))).toEqual(["key, power: −2.2 of 400 Ws > −2.9 of 400 Ws, 0.7 stop down"]);
    const marked = (stopsDown: number) =>
      withKey({
        dial: { ...KEY.dial, marked: "fractions" },
        output: { ...KEY.output, stopsDown } as typeof output,
      });
    expect(said(marked(1), "metric", marked(2.2))).toEqual([
      "key, power: 1/8 + 0.8 of 400 Ws > 1/2 of 400 Ws, 1.2 stops up",
    ]);
  });

  it("a head that is told by a meter and then by its dial gives so much more", () => {
    const before = withKey({ output: { lumenSeconds: 4000 } });
    const after = withKey({ output: { wattSeconds: 400, lumensPerWatt: 40, efficiency: 0.5, stopsDown: 0 } });
    expect(said(after, "metric", before)).toEqual(["key, power: 4000 lm·s > full of 400 Ws, 1.0 stop up"]);
    const same = withKey({ output: { wattSeconds: 400, lumensPerWatt: 40, efficiency: 0.5, stopsDown: 1 } });
    expect(said(same, "metric", before)[0]).toContain("the same, told another way");
  });

  it("a light's place as tape and protractor show it, from the nose and from the floor", () => {
    const [x, y, z] = KEY.position;
    expect(said(withKey({ position: [x - 0.25, y + 0.25, z + 0.1] }))).toEqual([
      "key, distance from the nose: 1.61 m > 1.39 m, 22 cm nearer",
      "key, elevation: 33° up > 45° up, 12° steeper",
      "key, height: 2.45 m > 2.55 m, 10 cm higher",
    ]);
    expect(said(withKey({ position: [x, y, z + 0.1] }), "feet")).toContain(
      "key, height: 8′ ½″ > 8′ 4½″, 4″ higher",
    );
  });

  it("a light on the other side of the face is on the other side", () => {
    const [x, y, z] = KEY.position;
    const over = said(withKey({ position: [7 - x, y, z] }));
    expect(over.find((line) => line.includes("side:"))).toContain("to the other side");
  });

  it("what no tape shows is said as the move that it is", () => {
    const [x, y, z] = KEY.position;
    expect(said(withKey({ position: [x + 0.0002, y, z] }))).toEqual([
      "key, place: right wall 2.55 m, near wall 3.55 m > right wall 2.55 m, near wall 3.55 m, moved under 1 mm",
    ]);
  });

  it("front, aim, colour, gel, on and off, pins", () => {
    const lines = said(
      withKey({
        face: { shape: "disc", width: 0.55 },
        direction: { at: [3.5, 4.5, 1.2] },
        kelvin: 3200,
        gel: { rgb: [1, 0.8, 0.5] },
        on: false,
        pinned: true,
      }),
    );
    expect(lines).toContain("key, front: octagon, 1.50 m > round, 0.55 m, smaller, another shape");
    expect(lines).toContain("key, colour: 5600 K > 3200 K, 134 mired warmer");
    expect(lines).toContain("key, gel: none > passes 100/80/50 %, put on");
    expect(lines).toContain("key, on or off: on > off, switched off");
    expect(lines).toContain("key, pin: free > pinned, held in its place");
    expect(lines.find((line) => line.startsWith("key, aim"))).toMatch(
      /at cellist's face.* 43° down, 9° down$/,
    );
  });

  it("camera: lens, aperture with its engraved stop and tenths, shutter, speed", () => {
    const camera = { ...CELLIST.camera, focalLength: 85, fNumber: 8 * 2 ** 0.2, shutter: 0.0125, iso: 200 };
    expect(said({ ...CELLIST, camera })).toEqual([
      "camera, lens: 135 mm > 85 mm, 50 mm shorter",
      "camera, aperture: f/8 > f/8 + 0.4, 0.4 stop smaller",
      "camera, shutter: 1/160 > 1/80, 1.0 stop longer",
      "camera, ISO: ISO 100 > ISO 200, 1.0 stop up",
    ]);
  });

  it("the sitter: mark, turn of the head, stature, glasses", () => {
    const person = { ...SITTER, position: [3.7, 4.6] as [number, number], head: { ...SITTER.head, turn: 4 } };
    expect(said({ ...CELLIST, people: [{ ...person, stature: 1.78 }] })).toEqual([
      "cellist, mark: right wall 3.50 m, far wall 4.40 m > right wall 3.30 m, far wall 4.40 m, 20 cm to the right",
      "cellist, turn of the head: 8° to own right > 4° to own left, 12° to own left",
      "cellist, stature: 1.72 m > 1.78 m, 6 cm taller",
    ]);
  });

  it("room: size, a wall that was painted; the backdrop's tone", () => {
    const room = CELLIST.room as NonNullable<Plan["room"]>;
    const after = {
      ...CELLIST,
      room: { ...room, width: 5.8, reflectance: { ...room.reflectance, left: 0.15 } },
      backdrop: { ...(CELLIST.backdrop as NonNullable<Plan["backdrop"]>), reflectance: 0.09 },
    };
    expect(said(after)).toEqual([
      "room, width: 7.00 m > 5.80 m, 1.20 m narrower",
      "room, left wall: 60 % back > 15 % back, 2.0 stops darker",
      "backdrop, surface: 18 % back > 9 % back, 1.0 stop darker",
    ]);
  });

  it("what was asked for, and readings by their number", () => {
    const brief = open({ ...CELLIST, brief: { want: { pattern: "loop" } } }).brief;
    const reading = { name: "reading 1", light: "all", fNumber: 8, iso: 100, note: "" };
    const lines = said({ ...CELLIST, brief, readings: [reading] });
    expect(lines).toEqual([
      "readings, written down: none > 1 reading, 1 added",
      "brief, brief: none > asked for, added",
    ]);
    const again = {
      ...CELLIST,
      brief: brief && { ...brief, want: { ...brief.want, pattern: "rembrandt" as const } },
    };
    expect(said(again, "metric", { ...CELLIST, brief })).toEqual([
      "brief, pattern: Loop > Rembrandt, asked otherwise",
    ]);
  });
});

describe("[SO5] things are known by name, and a renamed one by everything else", () => {
  it("renamed", () => {
    expect(said(withKey({ name: "octa" }))).toContain("octa, name: key > octa, renamed");
    expect(said(withKey({ name: "octa" }))).toHaveLength(1);
  });

  it("one that differs in more is another one", () => {
    const lines = said(withKey({ name: "octa", kelvin: 5000 }));
    expect(lines).toContain("key, there: octagon, 1.50 m, −2.2 of 400 Ws > , taken away");
    expect(lines).toContain("octa, there:  > octagon, 1.50 m, −2.2 of 400 Ws, added");
  });

  it("another order is said", () => {
    const fill = { ...KEY, name: "fill" };
    const lines = said({ ...CELLIST, lights: [fill, KEY] }, "metric", { ...CELLIST, lights: [KEY, fill] });
    expect(lines).toEqual(["lights, order: key, fill > fill, key, in another order"]);
  });
});

it("[SO6] a set that moves as a whole is one change, and what stayed or went elsewhere is said by itself", () => {
  const [right, into] = [-0.6, -0.3];
  const shifted = <Thing extends { position: readonly number[]; direction?: object }>(
    thing: Thing,
  ): Thing => {
    const by = ([x = 0, y = 0, ...rest]: readonly number[]) => [x + right, y + into, ...rest];
    const { direction } = thing;
    const at =
      direction !== undefined && "at" in direction ? { direction: { at: by(direction.at as number[]) } } : {};
    return { ...thing, ...at, position: by(thing.position) };
  };
  const moved = open({
    ...CELLIST,
    lights: CELLIST.lights.map(shifted),
    panels: CELLIST.panels.map(shifted),
    people: CELLIST.people.map(shifted),
    meters: CELLIST.meters.map(shifted),
    camera: shifted(CELLIST.camera),
  });
  expect(said(moved)).toEqual([
    "set, place in the room: left wall 3.50 m, near wall 4.60 m > left wall 2.90 m, near wall 4.30 m, all of it 60 cm to the left, 30 cm to the camera side",
    "backdrop, place: left wall 3.50 m, far wall 0.80 m > left wall 3.50 m, far wall 0.80 m, 60 cm to the right, 30 cm into the set",
  ]);
});

it("[SO7] direction and power are kept apart", () => {
  const [x, y, z] = KEY.position;
  const output = { ...KEY.output, stopsDown: 2.9 } as typeof KEY.output;
  const groups = changeGroups(
    planChanges(CELLIST, withKey({ output, position: [x, y, z + 0.1], name: "key" }), "metric"),
  );
  expect(groups.map(({ what, parts }) => [what, ...parts.map(({ part }) => part)])).toEqual([
    ["key", "direction", "power"],
  ]);
});

describe("[SO27] a question between two states of a plan", () => {
  const iso = (plan: Plan, value: number): Plan => ({ ...plan, camera: { ...plan.camera, iso: value } });
  const power = (stopsDown: number) => withKey({ output: { ...KEY.output, stopsDown } as typeof KEY.output });
  const here = { ...power(2.9), title: "mine" };
  const there = iso(power(1), 800);

  it("names what differs with both values, and first what both changed", () => {
    expect(linesApart(here, there, CELLIST, "metric")).toEqual([
      "key, power: −2.9 of 400 Ws here, −1.0 of 400 Ws there",
      "plan, title: mine here, Cellist, season poster there",
      "camera: ISO 100 here, ISO 800 there",
    ]);
    expect(linesApart(here, there, null, "metric")[0]).toMatch(/^plan, title/);
  });

  it("says what is only on one side, and what shows alike", () => {
    const without = { ...CELLIST, lights: [] };
    expect(linesApart(without, power(1), CELLIST, "metric")).toEqual(["key: only there"]);
    expect(linesApart(power(1), without, CELLIST, "metric")).toEqual(["key: only here"]);
    expect(linesApart(power(1), power(1.01), null, "metric")).toEqual([
      "key, power: −1.0 of 400 Ws in both, under 0.1 stop down there",
    ]);
  });
});
