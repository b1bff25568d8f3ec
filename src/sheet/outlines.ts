/** The set at true scale, from above and from the side: every object as its own outline, what is nearer over the rest. */
import type { Plan } from "../plan/index.ts";
import { cameraShapes } from "./camera-outline.ts";
import { boundsOf, type Drawing, type Extent, type PaperPoint, type Shape, type View } from "./drawing.ts";
import {
  backdropPart,
  cameraPart,
  depthOf,
  lightPart,
  markPart,
  meterPart,
  type Part,
  panelPart,
  personPart,
} from "./object-outlines.ts";

const AIR = 0.6;

/** The set from above. */
export function drawFloor(plan: Plan): Drawing {
  return draw(plan, "floor");
}

/** The set from the side, as seen from the right wall. */
export function drawSide(plan: Plan): Drawing {
  return draw(plan, "side");
}

/** Parts of plans that were drawn: while one thing is dragged the others, people above all, are not worked out again. */
const drawn = new WeakMap<object, Map<string, { readonly key: string; readonly part: Part }>>();

function once(thing: object, owner: string, view: View, key: string, make: () => Part): Part {
  const parts = drawn.get(thing) ?? new Map<string, { key: string; part: Part }>();
  drawn.set(thing, parts);
  const place = `${view} ${owner}`;
  const last = parts.get(place);
  if (last?.key === key) return last.part;
  const part = make();
  parts.set(place, { key, part });
  return part;
}

function draw(plan: Plan, view: View): Drawing {
  const parts: Part[] = [];
  const draws = (thing: object, owner: string, make: (owner: string) => Part, key = "") =>
    void parts.push(once(thing, owner, view, key, () => make(owner)));
  const { backdrop, camera } = plan;
  if (backdrop !== null) draws(backdrop, "backdrop", () => backdropPart(backdrop, view));
  plan.marks.forEach((mark, i) => {
    draws(mark, `marks[${i}]`, (owner) => markPart(mark, owner, view));
  });
  plan.people.forEach((person, i) => {
    const looksAt = person.head.follows === "camera" ? camera.position.join() : "";
    draws(person, `people[${i}]`, (owner) => personPart(person, plan, owner, view), looksAt);
  });
  plan.panels.forEach((panel, i) => {
    draws(panel, `panels[${i}]`, (owner) => panelPart(panel, owner, view));
  });
  plan.lights.forEach((light, i) => {
    draws(light, `lights[${i}]`, (owner) => lightPart(light, owner, view));
  });
  plan.meters.forEach((meter, i) => {
    draws(meter, `meters[${i}]`, (owner) => meterPart(meter, owner, view));
  });
  draws(camera, "camera", () => cameraPart(camera, view));

  const shapes = parts.flatMap((part) => part.shapes);
  const room = plan.room === null ? null : roomOutline(plan.room, view);
  const extent = extentOf(room, view, shapes);
  const bare = { closed: false, off: false, depth: Number.NEGATIVE_INFINITY };
  if (room !== null) shapes.push({ ...bare, kind: "room", owner: "room", points: room, closed: true });
  for (const points of cameraShapes(camera, view).fieldEdges(extent))
    shapes.push({ ...bare, kind: "field", owner: "camera", points, depth: depthOf(camera.position, view) });
  const nearness = new Map(shapes.map((s) => [s.owner, nearnessOf(plan, s.owner, view)]));
  shapes.sort((a, b) => (nearness.get(a.owner) ?? 0) - (nearness.get(b.owner) ?? 0));
  return { view, shapes, labels: parts.map((part) => part.label), extent };
}

function roomOutline(room: NonNullable<Plan["room"]>, view: View): PaperPoint[] {
  const [across, up] = view === "floor" ? [room.width, room.depth] : [room.depth, room.height];
  return [
    [0, 0],
    [across, 0],
    [across, up],
    [0, up],
  ];
}

function extentOf(room: readonly PaperPoint[] | null, view: View, shapes: readonly Shape[]): Extent {
  if (room !== null) return boundsOf(room)!;
  const all = boundsOf(shapes.flatMap((s) => (s.kind === "axis" ? s.points.slice(0, 1) : s.points)))!;
  return {
    across0: all.across0 - AIR,
    across1: all.across1 + AIR,
    up0: view === "side" ? Math.min(0, all.up0) : all.up0 - AIR,
    up1: all.up1 + AIR,
  };
}

/** How near an object's middle is to the reader, metres: what is nearer is drawn later, over the rest. */
function nearnessOf(plan: Plan, owner: string, view: View): number {
  if (owner === "room" || owner === "backdrop") return Number.NEGATIVE_INFINITY;
  const [list, index] = owner.split(/[[\]]/);
  // on the floor, under everything that stands there
  if (list === "marks") return view === "floor" ? 0 : plan.marks[Number(index)].position[0];
  const place =
    owner === "camera"
      ? plan.camera.position
      : list === "people"
        ? [...plan.people[Number(index)].position, plan.people[Number(index)].stature]
        : plan[list as "lights" | "panels" | "meters"][Number(index)].position;
  return view === "floor" ? place[2] : place[0];
}
