import { beforeEach, describe, expect, test } from "vitest";
import { setField } from "../plan/index.ts";
import { drawFloor } from "../sheet/index.ts";
import { createMemoryStore, createSession } from "../workbench/index.ts";
import type { Bench, View } from "./bench.ts";
import { takeHold } from "./bench.ts";
import { FLOOR, type PaperPoint } from "./handling.ts";
import { numberBox, overlap } from "./label-places.ts";
import { findObject } from "./objects.ts";
import { type Band, PaperHand, type Touch } from "./paper-hand.ts";
import { paperKey } from "./paper-keys.ts";
import { PaperSight } from "./paper-sight.ts";
import { Store } from "./store.ts";
import { placeTapes } from "./tape-places.ts";

const never = () => Promise.reject(new Error("not asked for here"));
const pane = {
  extent: { across0: 0, across1: 7, up0: 0, up1: 9 },
  size: { width: 746, height: 932 },
  margin: { left: 34, right: 12, top: 8, bottom: 24 },
};

const CELLIST = {
  format: "tapemark/plan",
  version: 1,
  room: { width: 7, depth: 9, height: 3.4 },
  lights: [
    {
      name: "key",
      position: [4.45, 3.55, 2.45],
      direction: { at: [3.5, 4.5, 1.55] },
      face: { shape: "polygon", sides: 8, width: 1.5 },
      output: { wattSeconds: 400, stopsDown: 2.2 },
    },
  ],
  backdrop: { kind: "paper", position: [3.5, 8.2] },
  panels: [{ name: "V-flat, black", position: [2.65, 4.75, 1.2], direction: { bearing: 105, tilt: 0 } }],
  people: [{ name: "cellist", position: [3.5, 4.6] }],
  camera: { position: [3.5, 1.9, 1.5] },
  meters: [
    { name: "chin", position: [3.5, 4.44, 1.48] },
    { name: "dome", position: [3.5, 4.44, 1.5], receptor: "dome" },
    { name: "paper", position: [3.5, 1.9, 1.5], receptor: "spot" },
  ],
};

let bench: Bench;
let hand: PaperHand;
let waiting: (() => void)[];
let bands: (Band | null)[];
let points: [PaperPoint | null, boolean][];

beforeEach(async () => {
  const session = createSession({
    computer: { read: never, frame: never, map: never },
    store: createMemoryStore(),
    scheduler: { after: () => () => {} },
  });
  const opened = await session.open("cellist", JSON.stringify(CELLIST));
  if (!opened.ok) throw new Error("not opened");
  const view = new Store({
    selected: null,
    also: [],
    person: 0,
    alone: null,
    reference: null,
  } as unknown as View);
  bench = { session, view, say: new Store("") } as unknown as Bench;
  waiting = [];
  bands = [];
  points = [];
  const desk = {
    sheet: FLOOR,
    drawing: drawFloor(session.get().plan),
    band: (band: Band | null) => void bands.push(band),
    point: (point: PaperPoint | null, pressed: boolean) => void points.push([point, pressed]),
  };
  hand = new PaperHand(bench, new PaperSight(pane, () => {}), desk, (run) => {
    waiting.push(run);
    return () => {
      waiting = waiting.filter((each) => each !== run);
    };
  });
});

/** The screen is drawn. */
function frame(): void {
  for (const run of waiting.splice(0)) run();
}

const screen = (across: number, up: number) => hand.paper.projection.toScreen(across, up);
const at = (across: number, up: number, more: Partial<Touch> = {}): Touch => ({
  id: 1,
  kind: "mouse",
  button: 0,
  free: false,
  also: false,
  on: null,
  ...screen(across, up),
  ...more,
});
const on = (owner: string, isHandle = false) => ({ on: { owner, isHandle } });
const plan = () => bench.session.get().plan;
const key = (name: string, more = {}) =>
  paperKey(bench, hand.paper, FLOOR, {
    key: name,
    shiftKey: false,
    altKey: false,
    ctrlKey: false,
    metaKey: false,
    target: { dataset: { owner: bench.view.get().selected ?? undefined } } as unknown as EventTarget,
    ...more,
  });

describe("the hand on the paper", () => {
  test("[AP29] however many moves come between two pictures of the screen, one edit is made of them", () => {
    const plans = new Set([plan()]);
    hand.down(at(4.45, 3.55, on("lights[0]")));
    bench.session.subscribe(() => plans.add(plan()));
    for (let i = 1; i <= 40; i++) hand.move(at(4.45 + i / 40, 3.55));
    expect(plans.size).toBe(1);
    frame();
    expect(plans.size).toBe(2);
    expect(plan().lights[0].position.slice(0, 2)).toEqual([5.45, 3.55]);
    // what is still waiting when the hand lets go is not lost
    hand.move(at(5, 3.05));
    hand.up(at(5, 3.05));
    expect(plan().lights[0].position.slice(0, 2)).toEqual([5, 3.05]);
    bench.session.undo();
    expect(plan().lights[0].position.slice(0, 2)).toEqual([4.45, 3.55]);
    expect(bench.session.get().undoLabel).toBeNull();
  });

  test("[AP29] a hand that holds still moves nothing: a press takes hold and no more", () => {
    const before = plan();
    hand.down(at(4.5, 3.6, on("lights[0]")));
    hand.move({ ...at(4.5, 3.6), x: screen(4.5, 3.6).x + 2 });
    hand.up(at(4.5, 3.6));
    expect(plan()).toBe(before);
    expect(bench.view.get().selected).toBe("lights[0]");
  });

  test("[AP20] a band holds what has its middle in it, with Shift besides what is held; a press alone asks the probe", () => {
    hand.down(at(2, 4));
    hand.move(at(5, 5));
    frame();
    expect(bands.at(-1)).not.toBeNull();
    hand.up(at(5, 5));
    const { selected, also } = bench.view.get();
    expect([selected, ...also].sort()).toEqual(["meters[0]", "meters[1]", "panels[0]", "people[0]"].sort());
    expect(bands.at(-1)).toBeNull();
    hand.down(at(4.2, 3.8, { also: true }));
    hand.move(at(4.7, 3.2));
    hand.up(at(4.7, 3.2));
    expect(bench.view.get().also).toContain("lights[0]");
    expect(points.some(([, pressed]) => pressed)).toBe(false);
    hand.down(at(6, 1));
    hand.up(at(6, 1));
    expect(points.at(-1)).toEqual([{ across: expect.closeTo(6, 9), up: expect.closeTo(1, 9) }, true]);
    // and what was held is still held
    expect(bench.view.get().also).toContain("lights[0]");
  });

  test("[AP20] one of several is dragged: all go along, it is the foremost; pressed alone it is held alone", () => {
    takeHold(bench, "panels[0]");
    bench.view.update({ also: ["lights[0]"] });
    hand.down(at(4.45, 3.55, on("lights[0]")));
    hand.move(at(4.95, 3.55));
    hand.up(at(4.95, 3.55));
    expect(plan().lights[0].position[0]).toBe(4.95);
    expect(plan().panels[0].position[0]).toBe(3.15);
    expect(bench.view.get()).toMatchObject({ selected: "lights[0]", also: ["panels[0]"] });
    hand.down(at(3.15, 4.75, on("panels[0]")));
    hand.up(at(3.15, 4.75));
    expect(bench.view.get()).toMatchObject({ selected: "panels[0]", also: [] });
  });

  test("[AP25] what is pinned does not follow the hand, nor its handle, and the panel is told why", () => {
    takeHold(bench, "lights[0]");
    key("p");
    const before = plan();
    hand.down(at(4.45, 3.55, on("lights[0]")));
    hand.move(at(5.5, 3));
    hand.up(at(5.5, 3));
    hand.down(at(4.4, 3.6, on("lights[0]", true)));
    hand.move(at(6, 6));
    hand.up(at(6, 6));
    key("Delete");
    expect(plan()).toBe(before);
    expect(bench.view.get().stays).toBe("key is pinned and stays.");
    expect(bench.say.get()).toBe("key is pinned and stays.");
    takeHold(bench, "camera");
    expect(bench.view.get().stays).toBeNull();
  });

  test("[AP27] a second finger lets go of what the first one drags, and both move the paper", () => {
    const finger = (id: number, across: number, up: number, more: Partial<Touch> = {}) =>
      at(across, up, { id, kind: "touch", ...more });
    hand.down(finger(1, 4.45, 3.55, on("lights[0]")));
    hand.move(finger(1, 4.95, 3.55));
    frame();
    const dragged = plan();
    hand.down(finger(2, 4.95, 5.55));
    const spread = { a: screen(4.95, 2.55), b: screen(4.95, 6.55) };
    hand.move({ ...finger(1, 0, 0), ...spread.a });
    hand.move({ ...finger(2, 0, 0), ...spread.b });
    frame();
    expect(hand.paper.times).toBeCloseTo(2, 9);
    const middle = screen(4.95, 4.55);
    expect(middle.y).toBeCloseTo((spread.a.y + spread.b.y) / 2, 6);
    expect(plan()).toBe(dragged);
    hand.up(finger(2, 5, 5));
    hand.up(finger(1, 5, 5));
    expect(hand.isIdle).toBe(true);
  });

  test("[AP28] keys: d copies and holds the copy, Delete takes it away, Escape lets go, others mean nothing here", () => {
    takeHold(bench, "lights[0]");
    expect(key("d")).toBe(true);
    expect(bench.view.get().selected).toBe("lights[1]");
    bench.view.update({ alone: "lights[1]" });
    expect(key("Delete")).toBe(true);
    expect(plan().lights).toHaveLength(1);
    expect(bench.view.get()).toMatchObject({ selected: null, alone: null });
    takeHold(bench, "lights[0]");
    expect(key("Escape")).toBe(true);
    expect(bench.view.get().selected).toBeNull();
    expect(key("x")).toBe(false);
    expect(key("z", { ctrlKey: true })).toBe(false);
    expect(key("a", { ctrlKey: true })).toBe(true);
    expect(bench.view.get().also).toHaveLength(7);
  });
});

describe("tapes", () => {
  const tapes = (owner: string) => {
    const object = findObject(plan(), owner);
    if (object === null) throw new Error(owner);
    const window = { x0: 34, y0: 8, x1: 734, y1: 908 };
    const { projection } = hand.paper;
    return placeTapes({ plan: plan(), sheet: FLOOR, object, projection, window, units: "metric", person: 0 });
  };
  test("[AP22] from a light: two walls, the face through the air, the mark along the floor; each as long as it is drawn", () => {
    const all = tapes("lights[0]");
    // walls at 7 - 4.45 and 3.55; the mark is where the cellist stands: hypot(0.95, 1.05) = 1.416
    expect(all.map((tape) => tape.text)).toEqual([
      "2.55 m",
      "3.55 m",
      expect.stringMatching(/^face 1\.\d\d m$/),
      "mark 1.42 m",
    ]);
    for (const tape of all.filter((each) => each.kind !== "face")) {
      const drawn_m = Math.hypot(tape.b.x - tape.a.x, tape.b.y - tape.a.y) / hand.paper.projection.scale;
      expect(drawn_m).toBeCloseTo(Number(/[\d.]+/.exec(tape.text)?.[0]), 2);
    }
  });
  test("[AP22] to the nearest mark of the plan's own, where it has any; whoever stands on it needs no tape to it", () => {
    const add = (name: string, position: number[]) =>
      bench.session.edit({ kind: "add", label: "", list: "marks", item: { name, position } });
    add("far", [6, 8]);
    add("near", [4.45, 3]);
    expect(tapes("lights[0]").map((tape) => tape.text)).toContain("mark 0.55 m");
    expect(tapes("people[0]").map((tape) => tape.kind)).toEqual(["wall", "wall", "mark"]);
    add("under", [3.5, 4.6]);
    expect(tapes("people[0]").map((tape) => tape.kind)).toEqual(["wall", "wall"]);
  });
  test("[AP22] close to the mark, from whichever side, the numbers to it and to the face stand clear of each other", () => {
    for (let bearing = 0; bearing < 360; bearing += 15) {
      const angle = (bearing * Math.PI) / 180;
      const position = [3.5 + 0.6 * Math.sin(angle), 4.6 + 0.6 * Math.cos(angle), 2.6];
      bench.session.edit(setField("", ["lights", 0, "position"], position));
      const [face, mark] = tapes("lights[0]")
        .filter(({ kind }) => kind !== "wall")
        .map(({ at, text }) => numberBox(at, text, false));
      if (face === undefined || mark === undefined) throw new Error("a number is missing");
      expect(overlap(face, mark), `${bearing}°`).toBe(0);
    }
  });
  test("[AP26] a number stands on the part of its tape that is seen", () => {
    hand.paper.bring({ across: 4.45, up: 3.55 }, { x: 384, y: 458 }, 6);
    for (const tape of tapes("lights[0]")) {
      expect(tape.at.x).toBeGreaterThan(34);
      expect(tape.at.x).toBeLessThan(734);
      expect(tape.at.y).toBeGreaterThan(8);
      expect(tape.at.y).toBeLessThan(908);
    }
  });
});
