import { describe, expect, it } from "vitest";
import { HIT, Tracer } from "../engine/index.ts";
import { checkPlan, type Plan } from "../plan/index.ts";
import { project, viewfinder } from "./camera-rays.ts";
import { outlinesOf } from "./catchlight-outlines.ts";
import { rimOfWall, WALL_NAMES } from "./catchlight-sources.ts";
import { CATCHLIGHT_FRAME_WIDTH, readCatchlights } from "./catchlights.ts";
import { corneaOf, writeNormalAt } from "./cornea.ts";
import { EyeRays } from "./eye-rays.ts";
import { type Lighting, lightUp, type Quality } from "./lighting.ts";
import { Memory } from "./memory.ts";
import type { Catchlight } from "./types.ts";

const AT_FACE = { at: [3, 3, 1.58] };
const KEY = {
  name: "key",
  position: [4, 2, 2.1],
  direction: AT_FACE,
  face: { shape: "rectangle", width: 0.6, height: 0.9 },
  output: { lumenSeconds: 2000 },
};
const CAMERA = { position: [3, 1, 1.58], direction: AT_FACE };

function plan(change: object = {}): Plan {
  const made = checkPlan({
    format: "tapemark/plan",
    version: 1,
    lights: [KEY],
    people: [{ name: "sitter", position: [3, 3], stature: 1.7 }],
    camera: CAMERA,
    ...change,
  });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.plan;
}

function lit(of: Plan, quality: Quality = "coarse"): Lighting {
  return lightUp(of, quality, new Memory());
}

function read(of: Plan, quality: Quality = "coarse"): Catchlight[] {
  return readCatchlights(lit(of, quality), 0, viewfinder(of.camera, 1000));
}

function find(all: readonly Catchlight[], eye: string, light: string): Catchlight {
  const found = all.find((c) => c.eye === eye && c.light === light);
  if (!found) throw new Error(`${light} is not mirrored in the ${eye} eye`);
  return found;
}

describe("[CT1] an outline is the law of reflection", () => {
  const cases: [string, object][] = [
    ["straight", {}],
    ["turned and tipped", { people: [{ position: [3, 3], head: { turn: 24, tip: -6, tilt: 8 } }] }],
    [
      "a disc, the camera aside and rolled",
      {
        lights: [{ ...KEY, face: { shape: "disc", width: 0.5 } }],
        camera: { position: [2.6, 1.2, 1.75], direction: AT_FACE, roll: 30 },
      },
    ],
    [
      "a polygon",
      { lights: [{ ...KEY, position: [2.4, 1.6, 1.9], face: { shape: "polygon", sides: 5, width: 0.7 } }] },
    ],
  ];
  it.each(cases)("%s: rays just inside it arrive on the front, rays just outside pass it by", (_, change) => {
    const of = plan(change);
    const lighting = lit(of);
    const view = viewfinder(of.camera, 1000);
    const { tracer, people } = lighting.stage;
    const c = corneaOf(people[0], people[0].shape.head.leftEye, view);
    const rays = new EyeRays(tracer, c, 0.5);
    const { outline } = find(readCatchlights(lighting, 0, view), "left", "key");
    const middle = [0, 1].map((k) => outline.reduce((sum, p) => sum + p[k], 0) / outline.length);
    const n = new Float64Array(3);
    const arrivesAt = ([x, y]: [number, number], scale: number) => {
      writeNormalAt(c, middle[0] + scale * (x - middle[0]), middle[1] + scale * (y - middle[1]), n);
      rays.castMirrored(n);
      return tracer.kind === HIT.emitter;
    };
    expect(outline.length).toBeGreaterThan(20);
    // corners are rounded to a ten-thousandth of an iris radius: 1 % of half the outline is thirty times that
    for (const p of outline) {
      expect(arrivesAt(p, 0.99)).toBe(true);
      expect(arrivesAt(p, 1.01)).toBe(false);
    }
  });
});

describe("[CT1] outlines of walls", () => {
  it.each([
    ["looking at the camera", { turn: 0 }],
    ["turned aside, the wall behind the head in view", { turn: 50, tip: 5 }],
    ["turned far the other way and down", { turn: -60, tip: -20 }],
  ])("%s: they share the cornea out as rays do (under 2 % of places differ, on borders)", (_, head) => {
    const room = { width: 5, depth: 4.2, height: 2.8 };
    const of = plan({ room, people: [{ position: [3, 3], head }] });
    const { scene, people } = lit(of).stage;
    const bare = new Tracer({ ...scene, meshes: [], emitters: [] });
    const c = corneaOf(people[0], people[0].shape.head.leftEye, viewfinder(of.camera, 1000));
    const rays = new EyeRays(bare, c, 0.05);
    const n = new Float64Array(3);
    const outlines = WALL_NAMES.map((_, wall) => outlinesOf(rays, rays.edge, rimOfWall([5, 4.2, 2.8], wall)));
    let differ = 0;
    const met = new Set<number>();
    for (const [x, y] of rays.grid) {
      writeNormalAt(c, x, y, n);
      rays.castMirrored(n);
      met.add(bare.index);
      outlines.forEach(({ outline }, wall) => {
        if (isInside(outline, x, y) !== (bare.index === wall)) differ++;
      });
    }
    expect(rays.grid.length).toBeGreaterThan(600);
    expect(met.size).toBeGreaterThan(4);
    expect(differ / rays.grid.length).toBeLessThan(0.02);
  });

  function isInside(p: readonly [number, number][], x: number, y: number): boolean {
    let inside = false;
    p.forEach(([ax, ay], i) => {
      const [bx, by] = p[(i + 1) % p.length];
      if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax)) inside = !inside;
    });
    return inside;
  }
});

describe("[CT2] mirrored, shifted and turned plans", () => {
  it("mirror the light and the eyes change places, clocks and outlines mirror", () => {
    const here = read(plan(), "fine");
    const there = read(plan({ lights: [{ ...KEY, position: [2, 2, 2.1] }] }), "fine");
    for (const [eye, other] of [
      ["left", "right"],
      ["right", "left"],
    ]) {
      const a = find(here, eye, "key");
      const b = find(there, other, "key");
      expect(b.visible).toBe(a.visible);
      // lids are mirrored to the mesh's precision
      expect(b.clock).toBeCloseTo(12 - a.clock, 1);
      expect(b.widthMillimetres).toBeCloseTo(a.widthMillimetres, 6);
      expect(b.heightPixels).toBeCloseTo(a.heightPixels, 6);
    }
  });

  it("turn the whole plan a quarter and carry it away: nothing changes", () => {
    const turn = ([x, y, z]: readonly number[]) => [20 + y, 30 - x, z];
    const aim = { at: turn(AT_FACE.at) };
    const there = read(
      plan({
        lights: [{ ...KEY, position: turn(KEY.position), direction: aim }],
        people: [{ name: "sitter", position: turn([3, 3, 0]).slice(0, 2), stature: 1.7, facing: 270 }],
        camera: { position: turn(CAMERA.position), direction: aim },
      }),
    );
    for (const a of read(plan())) {
      const b = find(there, a.eye, a.light);
      expect(b.clock).toBeCloseTo(a.clock, 2);
      expect(b.widthMillimetres).toBeCloseTo(a.widthMillimetres, 6);
      expect(b.visible).toBe(a.visible);
    }
  });
});

describe("[CT3] what is not seen", () => {
  it("a light that shows the eye its back is not mirrored; one that is off is not named", () => {
    expect(read(plan({ lights: [{ ...KEY, direction: { at: [5, 1, 2.6] } }] }))).toEqual([]);
    expect(read(plan({ lights: [{ ...KEY, on: false }] }))).toEqual([]);
  });

  it("a light behind the head, under the lid or behind a board is named, and not visible", () => {
    const hidden = (change: object, position = KEY.position) =>
      read(plan({ ...change, lights: [{ ...KEY, position }] })).filter((c) => c.kind === "light");
    const board = {
      panels: [{ position: [3.5, 2.5, 1.8], direction: AT_FACE, width: 1, height: 1.2, reflectance: 0 }],
    };
    for (const all of [hidden({}, [3.8, 4.5, 1.8]), hidden({}, [3, 2.9, 3.5]), hidden(board)]) {
      expect(all.map((c) => c.visible)).toEqual([false, false]);
    }
    expect(hidden({}).map((c) => c.visible)).toEqual([true, true]);
  });

  it("a camera behind the head sees none", () => {
    const behind = { position: [3, 5, 1.6], direction: AT_FACE };
    expect(read(plan({ camera: behind })).some((c) => c.visible)).toBe(false);
  });
});

describe("[CT4] size", () => {
  it("pixels are those of a frame 4000 wide", () => {
    const of = plan();
    const view = viewfinder(of.camera, CATCHLIGHT_FRAME_WIDTH);
    const [person] = lit(of).stage.people;
    const { iris, right } = corneaOf(person, person.shape.head.leftEye, view);
    const ends = [0, 0.001].map((x) =>
      project(
        view,
        iris.map((p, k) => p + x * right[k]),
      ),
    );
    const perMillimetre = (ends[1]?.[0] ?? 0) - (ends[0]?.[0] ?? 0);
    const key = find(read(of), "left", "key");
    // the eye lies a degree off the middle of the frame, where a plane square to the sight leans as much
    expect(key.widthPixels / key.widthMillimetres / perMillimetre).toBeCloseTo(1, 3);
  });

  it("a bare bulb is a point", () => {
    const key = find(read(plan({ lights: [{ ...KEY, face: { shape: "point" } }] })), "left", "key");
    expect(key).toMatchObject({ visible: true, widthMillimetres: 0, heightPixels: 0 });
    expect(key.outline.length).toBe(1);
  });
});

describe("[CT5] panels and walls show where they lighten the iris by a tenth of a stop", () => {
  const white = { name: "white", position: [2.2, 2.3, 1.4], direction: AT_FACE, width: 1, height: 1.6 };
  const faint = (change: object) => read(plan(change), "fine").filter((c) => c.kind !== "light");

  it("a white board near by does, a black one does not", () => {
    const board = faint({ panels: [white] });
    expect(board.map((c) => [c.eye, c.light, c.kind])).toEqual([
      ["left", "white", "panel"],
      ["right", "white", "panel"],
    ]);
    expect(board.every((c) => c.clock > 7 && c.clock < 10)).toBe(true);
    expect(faint({ panels: [{ ...white, reflectance: 0.03 }] })).toEqual([]);
  });

  it("a light thrown at a white ceiling is mirrored from there; a dark room and one without bounce mirror nothing", () => {
    const room = { width: 6, depth: 6, height: 3 };
    const up = { ...KEY, position: [3, 1.5, 2], direction: { bearing: 0, tilt: 90 } };
    const ceiling = faint({ lights: [up], room }).filter((c) => c.light === "ceiling");
    expect(ceiling.length).toBe(2);
    for (const c of ceiling) expect(Math.min(c.clock, 12 - c.clock)).toBeLessThan(1.5);
    const grey = (r: number) => ({ floor: r, ceiling: r, near: r, far: r, left: r, right: r });
    expect(faint({ room: { ...room, reflectance: grey(0.02) } })).toEqual([]);
    expect(faint({ lights: [up], room: { ...room, bounce: false } })).toEqual([]);
  });

  it("outputs doubled change nothing", () => {
    const bright = { ...KEY, output: { lumenSeconds: 4000 } };
    expect(read(plan({ panels: [white], lights: [bright] }))).toEqual(read(plan({ panels: [white] })));
  });

  it("a backdrop that an eye turned aside mirrors is an outline within the iris", () => {
    const backdrop = { kind: "paper", position: [3, 4.6], width: 4, reflectance: 0.9 };
    const back = { ...KEY, name: "back", position: [2, 3.6, 1.8], direction: { at: [4.2, 4.6, 1.6] } };
    const people = [{ position: [3, 3], head: { turn: 55 } }];
    const found = faint({ backdrop, lights: [KEY, back], people }).filter((c) => c.light === "backdrop");
    expect(found.length).toBeGreaterThan(0);
    for (const c of found) for (const [x, y] of c.outline) expect(Math.hypot(x, y)).toBeLessThan(1.1);
  });
});
