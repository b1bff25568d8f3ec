import { describe, expect, it } from "vitest";
import { buildPerson } from "../figure/index.ts";
import { checkPlan, type Plan } from "../plan/index.ts";
import { boundsOf, type Drawing, type ShapeKind } from "./drawing.ts";
import { drawFloor, drawSide } from "./outlines.ts";

function plan(fields: object): Plan {
  const checked = checkPlan({ format: "tapemark/plan", version: 1, ...fields });
  if (!checked.ok) throw new Error(JSON.stringify(checked));
  return checked.plan;
}
const of = (d: Drawing, kind: ShapeKind, owner: string) =>
  d.shapes.filter((s) => s.kind === kind && s.owner === owner);
const bounds = (d: Drawing, kind: ShapeKind, owner: string) =>
  boundsOf(of(d, kind, owner).flatMap((s) => s.points))!;

const room = { width: 7, depth: 9, height: 3.4 };
const output = { lumenSeconds: 1000 };

describe("[SH1] outlines are projections at true scale", () => {
  it("a disc of 1 m tilted 30° down toward the backdrop is 1 m by 0.5 m from above, 0.866 m high", () => {
    const p = plan({
      room,
      lights: [
        {
          position: [3, 2, 2],
          direction: { bearing: 0, tilt: -30 },
          face: { shape: "disc", width: 1 },
          output,
        },
      ],
    });
    const floor = bounds(drawFloor(p), "front", "lights[0]");
    const side = bounds(drawSide(p), "front", "lights[0]");
    // closed form; a disc is drawn with 64 corners on the circle, so its width is exact to cos(pi/64) = 0.12 %
    expect(floor.across1 - floor.across0).toBeCloseTo(1, 2);
    expect(floor.up1 - floor.up0).toBeCloseTo(0.5, 2);
    expect(side.up1 - side.up0).toBeCloseTo(Math.cos(Math.PI / 6), 2);
    expect((side.across0 + side.across1) / 2).toBeCloseTo(2, 9);
  });
  it("an upright panel is a line of its width from above", () => {
    const p = plan({
      room,
      panels: [{ position: [3, 4, 1.2], direction: { bearing: 90 }, width: 1.2, height: 2.4 }],
    });
    const floor = bounds(drawFloor(p), "panel", "panels[0]");
    expect(floor.up1 - floor.up0).toBeCloseTo(1.2, 9);
    expect(floor.across1 - floor.across0).toBeCloseTo(0, 9);
    const side = bounds(drawSide(p), "panel", "panels[0]");
    expect([side.up0, side.up1]).toEqual([expect.closeTo(0, 9), expect.closeTo(2.4, 9)]);
  });
  it("paper is as wide as it is and runs out by its curve and its floor length", () => {
    const backdrop = {
      kind: "paper",
      position: [3.5, 8],
      top: 2.8,
      width: 2.72,
      sweepRadius: 0.35,
      floorLength: 1.2,
    };
    const p = plan({ room, backdrop });
    const floor = bounds(drawFloor(p), "backdrop", "backdrop");
    expect(floor.across1 - floor.across0).toBeCloseTo(2.72, 9);
    expect(floor.up0).toBeCloseTo(8 - 1.55, 9);
    const side = bounds(drawSide(p), "backdrop", "backdrop");
    expect([side.up0, side.up1]).toEqual([expect.closeTo(0, 9), expect.closeTo(2.8, 9)]);
  });
  it("the field of view has the lens's own angle", () => {
    const p = plan({ room, camera: { position: [3.5, 1, 1.5], focalLength: 85 } });
    for (const [drawing, across] of [
      [drawFloor(p), 24],
      [drawSide(p), 36],
    ] as const) {
      const edges = of(drawing, "field", "camera");
      expect(edges).toHaveLength(2);
      const angles = edges.map(({ points: [a, b] }) => Math.atan2(b[1] - a[1], b[0] - a[0]));
      expect(Math.abs(angles[0] - angles[1])).toBeCloseTo(2 * Math.atan(across / 2 / 85), 9);
    }
  });
});

describe("[SH2] a person is drawn as the figure that the light falls on", () => {
  const p = plan({ room, people: [{ position: [3.5, 4.6], stature: 1.72, facing: 180 }] });
  it("from the side: as tall as the person, the nose toward the camera side", () => {
    const side = drawSide(p);
    const head = bounds(side, "head", "people[0]");
    const body = bounds(side, "body", "people[0]");
    // the head is one size for all, so its top is within 3 cm of the stature given
    expect(Math.abs(head.up1 - 1.72)).toBeLessThan(0.03);
    expect(body.up0).toBeCloseTo(0, 2);
    const [nose] = of(side, "nose", "people[0]");
    expect(nose.points[1][0]).toBeLessThan(nose.points[0][0]);
    // drawn with a point every 5°: the profile reaches the nose's tip to 5 mm
    expect(Math.abs(head.across0 - nose.points[0][0])).toBeLessThan(0.005);
  });
  it("from above: shoulders across, the mark under the ears", () => {
    const body = bounds(drawFloor(p), "body", "people[0]");
    // the outline is that of the figure itself, hanging arms and all: its own widest points, to 5 mm
    const { positions } = buildPerson({ stature: 1.72, pose: "standing", seatHeight: 0.45 }).body;
    const aside = Array.from(positions).filter((_, i) => i % 3 === 1);
    expect(Math.abs(body.across1 - body.across0 - (Math.max(...aside) - Math.min(...aside)))).toBeLessThan(
      0.005,
    );
    const mark = bounds(drawFloor(p), "mark", "people[0]");
    expect((mark.across0 + mark.across1) / 2).toBeCloseTo(3.5, 9);
    expect((mark.up0 + mark.up1) / 2).toBeCloseTo(4.6, 9);
  });
  it("a seated person ends on shins, not on a block", () => {
    const seated = plan({ room, people: [{ position: [3.5, 4.6], pose: "seated", facing: 180 }] });
    const [body] = of(drawSide(seated), "body", "people[0]");
    const low = boundsOf(body.points.filter(([, up]) => up < 0.3))!;
    // no longer than a shoe: 0.17 m from heel to ball and its rounding at both ends
    expect(low.across1 - low.across0).toBeLessThan(0.26);
    expect(low.across1).toBeLessThan(4.6);
  });
});

it("[SH3] in open space the drawing holds everything that stands there, with air", () => {
  const p = plan({
    lights: [{ position: [-4, -2, 2.5], direction: { at: [0, 0, 1.6] }, face: { shape: "point" }, output }],
    people: [{ position: [0, 0] }],
    camera: { position: [0, -3, 1.5] },
  });
  const { extent, shapes } = drawFloor(p);
  const all = boundsOf(shapes.flatMap((s) => s.points))!;
  expect(all.across0).toBeGreaterThanOrEqual(extent.across0 - 1e-9);
  expect(all.up1).toBeLessThanOrEqual(extent.up1 + 1e-9);
  expect(extent.across0).toBeLessThan(-4.3);
  expect(drawSide(p).extent.up0).toBe(0);
});

describe("[AP21] marks of their own are drawn on the floor", () => {
  const marked = plan({ room, marks: [{ name: "first", position: [2, 3] }] });
  it("a cross of tape at its true size: 20 cm across, inch-wide, its middle on the mark", () => {
    const floor = bounds(drawFloor(marked), "tape", "marks[0]");
    expect(floor).toEqual({
      across0: expect.closeTo(1.9, 9),
      across1: expect.closeTo(2.1, 9),
      up0: expect.closeTo(2.9, 9),
      up1: expect.closeTo(3.1, 9),
    });
    // two strips of 0.2 by 0.025, their common square counted once
    const [{ points }] = of(drawFloor(marked), "tape", "marks[0]");
    const area = points.reduce((sum, [x, y], i) => {
      const [nextX, nextY] = points[(i + 1) % points.length];
      return sum + (x * nextY - nextX * y) / 2;
    }, 0);
    expect(area).toBeCloseTo(2 * 0.2 * 0.025 - 0.025 ** 2, 9);
  });
  it("from the side it lies on the floor", () => {
    expect(bounds(drawSide(marked), "tape", "marks[0]")).toMatchObject({ up0: 0, up1: 0 });
  });
});

describe("[AP29] while one thing is dragged, the others are not drawn again", () => {
  it("what did not change keeps its very shapes; what did has new ones; a nose that follows the lens turns", () => {
    const people = [{ position: [3.5, 4.6] }, { position: [2, 4.6], head: { follows: "camera" } }];
    const before = plan({
      room,
      people,
      lights: [{ position: [3, 2, 2], direction: { bearing: 0 }, face: { shape: "point" }, output }],
    });
    const shapesOf = (p: Plan, owner: string) => drawFloor(p).shapes.filter((s) => s.owner === owner);
    const kept = shapesOf(before, "people[0]");
    const follower = shapesOf(before, "people[1]");
    const moved = {
      ...before,
      camera: { ...before.camera, position: [5, 1, 1.5] as [number, number, number] },
    };
    expect(shapesOf(moved, "people[0]").every((shape, i) => shape === kept[i])).toBe(true);
    expect(shapesOf(moved, "lights[0]")[0]).toBe(shapesOf(before, "lights[0]")[0]);
    const nose = (shapes: readonly { kind: string; points: unknown }[]) =>
      shapes.find((s) => s.kind === "nose")?.points;
    expect(nose(shapesOf(moved, "people[1]"))).not.toEqual(nose(follower));
    // and back again: what was drawn for the other place of the camera is not taken for this one
    expect(nose(shapesOf(before, "people[1]"))).toEqual(nose(follower));
  });
});
