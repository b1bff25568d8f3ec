/** Every object of a plan as its own outline at true scale, from above and from the side. */
import {
  axesOf,
  type Backdrop,
  directionOf,
  faceOutline,
  type Light,
  type Panel,
  type Plan,
  type Vec3,
} from "../plan/index.ts";
import { stagePerson } from "../staging/index.ts";
import { cameraShapes } from "./camera-outline.ts";
import {
  boundsOf,
  type Drawing,
  type Extent,
  type Label,
  type PaperPoint,
  type Shape,
  type ShapeKind,
  type View,
} from "./drawing.ts";
import { personOutline } from "./silhouette.ts";

/** Half the size of the cross of a point light, of a mark and of a meter, metres. */
const CROSS = 0.06;
const METER_RADIUS = 0.035;
/** How far an aim is drawn where the plan gives an angle and no point to look at, metres. */
const AIM_LENGTH = 1;
/** From the tip of the nose on, metres. */
const NOSE_LINE = 0.15;
const AIR = 0.6;
const SWEEP_STEPS = 8;

/** The set from above. */
export function drawFloor(plan: Plan): Drawing {
  return draw(plan, "floor");
}

/** The set from the side, as seen from the right wall. */
export function drawSide(plan: Plan): Drawing {
  return draw(plan, "side");
}

export function onPaper(p: Readonly<Vec3>, view: View): PaperPoint {
  return view === "floor" ? [p[0], p[1]] : [p[1], p[2]];
}

function draw(plan: Plan, view: View): Drawing {
  const shapes: Shape[] = [];
  const labels: Label[] = [];
  let depth = 0;
  // from above what is higher is nearer; from the right wall what is farther right
  const depthOf = (p: Readonly<Vec3>) => (view === "floor" ? p[2] : p[0]);
  const add = (kind: ShapeKind, owner: string, points: readonly PaperPoint[], closed = false, off = false) =>
    void shapes.push({ kind, owner, points, closed, off, depth });
  const name = (owner: string, text: string, at: PaperPoint) => {
    const own = shapes.filter(
      (s) => s.owner === owner && s.kind !== "axis" && s.kind !== "field" && s.kind !== "nose",
    );
    labels.push({ owner, text, at, clear: boundsOf([...own.flatMap((s) => s.points), at])! });
  };

  if (plan.room !== null) add("room", "room", roomOutline(plan.room, view), true);
  if (plan.backdrop !== null) {
    const profile = backdropOutline(plan.backdrop, view);
    add("backdrop", "backdrop", profile, view === "floor");
    const [x, y] = plan.backdrop.position;
    name("backdrop", plan.backdrop.kind, onPaper([x, y, plan.backdrop.top], view));
  }
  plan.people.forEach((person, i) => {
    const owner = `people[${i}]`;
    const staged = stagePerson(person, plan);
    depth = depthOf([person.position[0], person.position[1], staged.shape.earHeight]);
    const outline = personOutline(staged, view);
    add("body", owner, outline.body, true);
    add("head", owner, outline.head, true);
    const tip = outline.noseTip;
    const end = [0, 1, 2].map((k) => tip[k] + NOSE_LINE * outline.ahead[k]);
    add("nose", owner, [onPaper([...tip], view), onPaper([end[0], end[1], end[2]], view)]);
    const [x, y] = person.position;
    if (view === "floor") for (const line of cross([x, y], CROSS)) add("mark", owner, line);
    name(owner, person.name, onPaper([x, y, staged.shape.earHeight], view));
  });
  plan.panels.forEach((panel, i) => {
    depth = depthOf(panel.position);
    add("panel", `panels[${i}]`, panelOutline(panel, view), true);
    name(`panels[${i}]`, panel.name, onPaper(panel.position, view));
  });
  plan.lights.forEach((light, i) => {
    const owner = `lights[${i}]`;
    const centre = onPaper(light.position, view);
    depth = depthOf(light.position);
    add("axis", owner, [centre, onPaper(aimPoint(light), view)], false, !light.on);
    if (light.face.shape === "point")
      for (const line of cross(centre, CROSS)) add("front", owner, line, false, !light.on);
    else add("front", owner, frontOutline(light, view), true, !light.on);
    name(owner, light.name, centre);
  });
  plan.meters.forEach((meter, i) => {
    const owner = `meters[${i}]`;
    const [across, up] = onPaper(meter.position, view);
    const ring = Array.from({ length: 16 }, (_, k): PaperPoint => {
      const a = (k * Math.PI) / 8;
      return [across + METER_RADIUS * Math.cos(a), up + METER_RADIUS * Math.sin(a)];
    });
    depth = depthOf(meter.position);
    add("meter", owner, ring, true);
    const { bearing_deg, tilt_deg } = directionOf(meter.direction, meter.position);
    const { forward } = axesOf(bearing_deg, tilt_deg, 0);
    const [da, du] = onPaper(forward, view);
    add(
      "meter",
      owner,
      [1, 2.6].map((k): PaperPoint => [across + k * METER_RADIUS * da, up + k * METER_RADIUS * du]),
    );
    name(owner, meter.name, [across, up]);
  });

  const camera = cameraShapes(plan.camera, view);
  depth = depthOf(plan.camera.position);
  add("camera", "camera", camera.lens, true);
  add("camera", "camera", camera.body, true);
  name("camera", "camera", onPaper(plan.camera.position, view));
  const extent = extentOf(plan, view, shapes);
  for (const edge of camera.fieldEdges(extent)) add("field", "camera", edge);
  const nearness = new Map(shapes.map((s) => [s.owner, nearnessOf(plan, s.owner, view)]));
  shapes.sort((a, b) => (nearness.get(a.owner) ?? 0) - (nearness.get(b.owner) ?? 0));
  return { view, shapes, labels, extent };
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

function extentOf(plan: Plan, view: View, shapes: readonly Shape[]): Extent {
  if (plan.room !== null) return boundsOf(roomOutline(plan.room, view))!;
  const all = boundsOf(shapes.flatMap((s) => (s.kind === "axis" ? s.points.slice(0, 1) : s.points)))!;
  return {
    across0: all.across0 - AIR,
    across1: all.across1 + AIR,
    up0: view === "side" ? Math.min(0, all.up0) : all.up0 - AIR,
    up1: all.up1 + AIR,
  };
}

/** The front's outline in space, xyz per corner. */
export function frontCorners(light: Pick<Light, "face" | "direction" | "position" | "roll">): Vec3[] {
  const { bearing_deg, tilt_deg } = directionOf(light.direction, light.position);
  return placed(faceOutline(light.face), light.position, axesOf(bearing_deg, tilt_deg, light.roll));
}

function frontOutline(light: Light, view: View): PaperPoint[] {
  return frontCorners(light).map((corner) => onPaper(corner, view));
}

function panelOutline(panel: Panel, view: View): PaperPoint[] {
  const { width, height } = panel;
  const corners = frontCorners({ ...panel, face: { shape: "rectangle", width, height } });
  return corners.map((corner) => onPaper(corner, view));
}

function placed(
  outline: readonly (readonly number[])[],
  at: Readonly<Vec3>,
  axes: { right: Vec3; up: Vec3 },
): Vec3[] {
  const { right, up } = axes;
  return outline.map(([w, h]) => [
    at[0] + w * right[0] + h * up[0],
    at[1] + w * right[1] + h * up[1],
    at[2] + w * right[2] + h * up[2],
  ]);
}

/** What a light looks at; along an angle, a point a metre on. */
export function aimPoint(light: Light): Vec3 {
  if ("at" in light.direction) return light.direction.at;
  const { forward } = axesOf(light.direction.bearing, light.direction.tilt, 0);
  return [0, 1, 2].map((k) => light.position[k] + AIM_LENGTH * forward[k]) as Vec3;
}

/** From above the sheet's two edges; from the side its profile, hung, swept and run out along the floor. */
function backdropOutline(b: Backdrop, view: View): PaperPoint[] {
  const bearing = (b.bearing * Math.PI) / 180;
  const ahead = [Math.sin(bearing), Math.cos(bearing)];
  const across = [Math.cos(bearing), -Math.sin(bearing)];
  const radius = Math.min(b.sweepRadius, b.top);
  const at = (u: number, out: number, up: number): PaperPoint =>
    onPaper(
      [b.position[0] + u * across[0] + out * ahead[0], b.position[1] + u * across[1] + out * ahead[1], up],
      view,
    );
  if (view === "floor") {
    const h = b.width / 2;
    const run = radius + b.floorLength;
    return [at(-h, 0, 0), at(h, 0, 0), at(h, run, 0), at(-h, run, 0)];
  }
  const profile = [at(0, 0, b.top)];
  for (let i = 0; i <= SWEEP_STEPS; i++) {
    const a = (i / SWEEP_STEPS) * (Math.PI / 2);
    profile.push(at(0, radius * (1 - Math.cos(a)), radius * (1 - Math.sin(a))));
  }
  profile.push(at(0, radius + b.floorLength, 0));
  return profile;
}

function cross([across, up]: PaperPoint, half: number): PaperPoint[][] {
  return [
    [
      [across - half, up - half],
      [across + half, up + half],
    ],
    [
      [across - half, up + half],
      [across + half, up - half],
    ],
  ];
}

/** How near an object's middle is to the reader, metres: what is nearer is drawn later, over the rest. */
function nearnessOf(plan: Plan, owner: string, view: View): number {
  if (owner === "room" || owner === "backdrop") return Number.NEGATIVE_INFINITY;
  const [list, index] = owner.split(/[[\]]/);
  const place =
    owner === "camera"
      ? plan.camera.position
      : list === "people"
        ? [...plan.people[Number(index)].position, plan.people[Number(index)].stature]
        : plan[list as "lights" | "panels" | "meters"][Number(index)].position;
  return view === "floor" ? place[2] : place[0];
}
