/** What stands on the pages and how it is set: two of them for the demo, with everything that can be known of it. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { checkPlan, type Plan } from "../plan/index.ts";
import { usualCautions } from "../safety/index.ts";
import { backgroundPoints } from "./background.ts";
import type { SheetExtras } from "./extras.ts";
import { type Piece, pairedPiece, setColumns } from "./flow.ts";
import { overlap } from "./labels.ts";
import { measurePlaces } from "./place.ts";
import { placementSheet } from "./placement.ts";
import { PLANS, planOf, readingFor } from "./testing/plans.ts";
import { textsOf } from "./testing/read-page.ts";

const checked = checkPlan(JSON.parse(readFileSync("examples/cellist.json", "utf8")));
if (!checked.ok) throw new Error(checked.problems[0].what);
const DEMO: Plan = checked.plan;
const CASES = (["a4", "letter"] as const).flatMap((paper) =>
  (["metric", "feet"] as const).map((units) => ({ paper, units })),
);

/** As full as they come: eight ways to drift, five points, four moves, three reaches. */
function full(plan: Plan): Required<Omit<SheetExtras, "noHold">> {
  const way = (name: string, isHead: boolean) => ({
    way: name,
    metres: isHead ? null : 0.31,
    degrees: isHead ? 12.5 : null,
    ends: "ratio down a third of a stop",
  });
  const move = (of: string, does: string) => ({
    of,
    does,
    direction: "loop now, 10° to own right",
    faceStops: -0.2,
    ratioStops: 0.3,
    backgroundStops: null,
  });
  return {
    hold: {
      person: 0,
      asked: "Rembrandt, exposure and ratio within a third of a stop, no skin clipped",
      outline: [
        { x: 3.2, y: 4.6 },
        { x: 3.5, y: 4.2 },
        { x: 3.7, y: 4.7 },
      ],
      circle: { x: 3.45, y: 4.6, radius_m: 0.17, ahead_m: -0.12, left_m: -0.07 },
      rows: [
        ...["ahead", "own left", "behind", "own right"].map((name) => way(name, false)),
        ...["head to own right", "head to own left", "chin down", "chin up"].map((name) => way(name, true)),
      ],
    },
    background: backgroundPoints(plan, measurePlaces(plan).noses, 0).map(({ name, position }) => ({
      name,
      position,
      fStops: "f/2.8 + 0.3",
      againstKeyStops: -2.9,
    })),
    moves: [
      move("cellist", "head turns 10° to own left"),
      move("key", "round 10° left"),
      move("cellist", "20 cm to own right"),
      move("cellist", "forward 20 cm"),
    ],
    reach: [
      {
        owner: "lights[0]",
        text: "4 soles heel to toe less 6 fingers from under the near rim to the mark",
        spread_m: 0.06,
        effect: "power ±0.1 stop, stays Rembrandt",
      },
      {
        owner: "panels[0]",
        text: "right arm level: the panel lies 1 finger past the fist",
        spread_m: 0.02,
        effect: "same power, stays Rembrandt",
      },
      { owner: "camera", text: "no reach: 2.59 m from the shoulder to the lens", spread_m: 0, effect: "" },
    ],
  };
}
const picture = { data: "iVBORw0KGgo=", width: 360, height: 540 };
const demoSheet = (paper: "a4" | "letter", units: "metric" | "feet") =>
  placementSheet(DEMO, readingFor(DEMO), {
    paper,
    units,
    date: "29 November 2026",
    picture,
    ...full(DEMO),
  });
const wordsOf = (pages: readonly string[]) =>
  pages.flatMap((page) => textsOf(page).map(({ text }) => text)).join(" ");

describe("[SH14] as few pages as can be: the demo with everything takes two", () => {
  it.each(CASES)("$paper, $units", ({ paper, units }) => {
    const pages = demoSheet(paper, units);
    expect(pages).toHaveLength(2);
    for (const page of pages) {
      const texts = textsOf(page);
      const on = texts.flatMap((a, i) =>
        texts.slice(i + 1).flatMap((b) => (overlap(a.box, b.box) ? [`${a.text} × ${b.text}`] : [])),
      );
      expect(on).toEqual([]);
    }
  });
  it("where more room is no gain the drawing is as large as it fits", () => {
    const scaleOf = (pages: readonly string[]) => Number(/1 : ([\d.]+)/.exec(pages[0])?.[1]);
    const bare = placementSheet(DEMO, readingFor(DEMO), { paper: "a4", units: "metric" });
    expect(scaleOf(bare)).toBeLessThanOrEqual(scaleOf(demoSheet("a4", "metric")));
    const one = PLANS["one light"];
    const few = placementSheet(one, readingFor(one), { paper: "a4", units: "metric" });
    expect(scaleOf(few)).toBe(60);
  });
  it("nothing of what is known is left out for it", () => {
    const words = wordsOf(demoSheet("letter", "feet"));
    for (const heading of [
      "Where everything stands",
      "What the meters should read",
      "Background:",
      "Hold zone",
      "Order of setting up",
      "Called out",
      "Weights and mains",
      "Without a tape",
      "Moves worth knowing",
      "Every time",
      "To work it out again",
      "Camera",
    ])
      expect(words).toContain(heading);
  });
});

it("[SH15] rulers count from the first mark: its number 0 stands under and beside it", () => {
  const [page] = placementSheet(DEMO, readingFor(DEMO), { paper: "a4", units: "metric" });
  const mark = /data-owner="people\[0\]" data-kind="mark"/.exec(page);
  expect(mark).not.toBeNull();
  const zeros = textsOf(page).filter(({ text }) => text === "0");
  // two of the floor; of the side the floor's own 0 and the mark's
  expect(zeros).toHaveLength(4);
  const [tag] = /<path[^>]*data-owner="people\[0\]" data-kind="mark"[^>]*>/.exec(page) ?? [""];
  const xs = [...tag.matchAll(/[ML](\S+) /g)].map(([, x]) => Number(x));
  const middle = (Math.min(...xs) + Math.max(...xs)) / 2;
  expect(zeros.some(({ box }) => Math.abs((box.x0 + box.x1) / 2 - middle) < 0.3)).toBe(true);
});

describe("[SH16] five points of the paper", () => {
  const { noses } = measurePlaces(DEMO);
  const points = backgroundPoints(DEMO, noses, 0);
  const at = (name: string) => points.find((point) => point.name === name)?.position ?? [0, 0, 0];
  it("two centimetres before it, looking out along it", () => {
    expect(points).toHaveLength(5);
    for (const { position, bearing_deg } of points) {
      expect(position[1]).toBeCloseTo(8.2 - 0.02, 6);
      expect(bearing_deg).toBe(180);
    }
  });
  it("toward a corner it is 0.8 of half the picture away from its middle: closed form of a pinhole", () => {
    // 6.3 m from the lens; 24 mm wide and 36 mm high on 135 mm
    const across = (0.8 * 12 * 6.3) / 135;
    const up = (0.8 * 18 * 6.3) / 135;
    expect(at("top left")[0]).toBeCloseTo(3.5 - across, 3);
    expect(at("bottom right")[0]).toBeCloseTo(3.5 + across, 3);
    expect(at("top right")[2]).toBeCloseTo(1.5 + up, 3);
    expect(at("bottom left")[2]).toBeCloseTo(1.5 - up, 3);
  });
  it("the one behind the head lies on the line from the lens through the nose", () => {
    const [tip] = noses.map((nose) => nose.tip);
    const from = DEMO.camera.position;
    const t = (8.2 - from[1]) / (tip[1] - from[1]);
    expect(at("behind the head")[0]).toBeCloseTo(from[0] + t * (tip[0] - from[0]), 6);
    expect(at("behind the head")[2]).toBeCloseTo(from[2] + t * (tip[2] - from[2]), 6);
  });
  it("a corner that looks past the paper is measured at its edge; none where there is no paper before the lens", () => {
    const wide = planOf({ ...DEMO, camera: { ...DEMO.camera, focalLength: 24 } });
    for (const { position } of backgroundPoints(wide, noses, 0)) {
      expect(Math.abs(position[0] - 3.5)).toBeLessThanOrEqual(2.72 / 2 - 0.1 + 1e-9);
      expect(position[2]).toBeLessThanOrEqual(2.8 - 0.1 + 1e-9);
      expect(position[2]).toBeGreaterThanOrEqual(0.35);
    }
    expect(backgroundPoints(planOf({ ...DEMO, backdrop: null }), noses, 0)).toEqual([]);
    const away = { ...DEMO.camera, direction: { bearing: 180, tilt: 0 }, position: [3.5, 1.9, 1.5] };
    expect(backgroundPoints(planOf({ ...DEMO, people: [], camera: away, meters: [] }), [], 0)).toEqual([]);
  });
});

it("[SH19] weights are load against load, with the lamp removed, and what turns over is called out", () => {
  const words = wordsOf(demoSheet("a4", "metric"));
  expect(words).toMatch(/Everything on: .*N·m against .*N·m/);
  expect(words).toMatch(/load off: .*N·m against .*N·m/);
  expect(words).toMatch(/key's boom stand turns over/);
  expect(words).toMatch(/key's arm can reach over cellist/);
  expect(words).toMatch(/at once: .* A left, .* A \(.* W\) against/);
  expect(words).not.toMatch(/\bsafe\b|\bOK\b|\bfine\b/i);
});

it("[SH22] aims are printed to half a degree, and never as 360°", () => {
  const light = (bearing: number, tilt: number) => ({
    name: `to ${bearing}`,
    position: [1, 1, 2],
    direction: { bearing, tilt },
    face: { shape: "point" },
    output: { lumenSeconds: 1 },
  });
  const plan = planOf({ lights: [light(359.9, 0.2), light(12.26, -33.4)] });
  const words = wordsOf(placementSheet(plan, readingFor(plan), { paper: "a4", units: "metric" }));
  expect(words).toContain("bearing 0°, level");
  expect(words).toContain("bearing 12.5°, 33.5° down");
});

describe("[SH23] two columns", () => {
  const piece = (height: number): Piece => ({ height, draw: () => [] });
  const section = (...heights: number[]) => ({ heading: piece(6), rows: heights.map(piece) });
  const limits = { top: 20, bottom: 120 };
  const set = (sections: Parameters<typeof setColumns>[0], y: number) => {
    const placed: [page: number, x: number, y: number, height: number][] = [];
    const end = setColumns(sections, { page: 0, y }, [0, 100], limits, (page, { height }, x, at) =>
      placed.push([page, x, at, height]),
    );
    return { placed, end };
  };
  it("are as even as rows allow", () => {
    const { placed } = set([section(10, 10, 10, 10, 10, 10, 10)], 20);
    const deep = [0, 100].map((x) => Math.max(...placed.filter((p) => p[1] === x).map((p) => p[2] + p[3])));
    expect(Math.abs(deep[0] - deep[1])).toBeLessThanOrEqual(10);
    expect(placed.every(([page]) => page === 0)).toBe(true);
  });
  it("go on, heading and all, on the next page; nothing passes the foot; nothing is lost", () => {
    const { placed, end } = set([section(...Array(30).fill(15))], 60);
    expect(placed.filter(([, , , height]) => height === 15)).toHaveLength(30);
    for (const [, , y, height] of placed) expect(y + height).toBeLessThanOrEqual(120);
    expect(end.page).toBe(2);
    const columns = new Set(placed.map(([page, x]) => `${page} ${x}`)).size;
    expect(placed.filter(([, , , height]) => height === 6)).toHaveLength(columns);
  });
  it("are not begun for a row or two at the foot of a page", () => {
    const { placed } = set([section(2, 2, 2, 2, 2)], 110);
    expect(placed.every(([page]) => page === 1)).toBe(true);
  });
  it("what is higher than a page is set all the same", () => {
    const { placed } = set([section(400)], 60);
    expect(placed).toHaveLength(2);
    expect(placed[0][0]).toBe(1);
  });
});

it("[SH28] what is said every time is a list in two columns, as even as its items allow", () => {
  const texts = demoSheet("a4", "metric").flatMap(textsOf);
  const from = texts.findIndex(({ text }) => text === "Every time");
  const dashes = texts.slice(from).filter(({ text }) => text === "–");
  const lefts = [...new Set(dashes.map(({ box }) => box.x0))];
  expect(lefts).toHaveLength(2);
  const counts = lefts.map((left) => dashes.filter(({ box }) => box.x0 === left).length);
  expect(counts[0] + counts[1]).toBe(usualCautions(DEMO).length - 1);
  const piece = (height: number): Piece => ({ height, draw: (x, y) => [`${x} ${y}`] });
  // 9 and 7 are as even as 5, 4, 2, 3, 2 can be
  const paired = pairedPiece([5, 4, 2, 3, 2].map(piece), [0, 50]);
  expect(paired.height).toBe(9);
  expect(paired.draw(0, 0)).toEqual(["0 0", "0 5", "50 0", "50 2", "50 5"]);
});

it("[SH27] many people have mark, pose and face in one row, and stand in no other table", () => {
  const { quartet } = PLANS;
  const pages = placementSheet(quartet, readingFor(quartet), { paper: "a4", units: "metric" });
  const texts = pages.flatMap(textsOf);
  const at = (text: string) => texts.findIndex((each) => each.text === text);
  const people = texts.slice(at("People: their marks and faces"), at("Where everything stands"));
  for (const { name } of quartet.people) {
    expect(people.filter(({ text }) => text === name)).toHaveLength(1);
    expect(
      texts.filter(({ text, weight, size }) => text === name && weight === 600 && size === 3),
    ).toHaveLength(1);
  }
  expect(people.filter(({ text }) => text === "Loop")).toHaveLength(4);
  expect(people.filter(({ text }) => text === "3.2:1 lit to shadow")).toHaveLength(4);
});

describe("[SH26] names that a table shortens stand in full under it, and only those", () => {
  const all = (name: string) => {
    const plan = PLANS[name];
    return wordsOf(placementSheet(plan, readingFor(plan), { paper: "letter", units: "feet" }));
  };
  it("long ones", () => {
    const [, names] = all("long names").split("Names in full");
    expect(names.replaceAll(" ", "")).toContain(PLANS["long names"].lights[1].name);
    expect(names).toContain(PLANS["long names"].people[0].name);
    expect(names).toContain(PLANS["long names"].title);
  });
  it("no list where all have room", () => expect(all("five lights")).not.toContain("Names in full"));
});

it("[SH24] the camera's table has what is set on it", () => {
  const words = wordsOf(demoSheet("a4", "metric"));
  for (const said of [
    "135 mm, f/8, 1/160,",
    "5600 K",
    "8256 × 5504 pixels",
    "season poster",
    "0.6 stops below",
  ])
    expect(words).toContain(said);
});
