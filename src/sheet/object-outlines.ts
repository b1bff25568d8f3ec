/** Each kind of object as its own outline, as seen from above or from the side. */
import {
  axesOf,
  type Backdrop,
  type Camera,
  directionOf,
  frontCorners,
  type Light,
  type Mark,
  type Meter,
  type Panel,
  type Person,
  type Plan,
  panelFront,
  type Vec3,
} from "../plan/index.ts";
import { stagePerson } from "../staging/index.ts";
import { cameraShapes } from "./camera-outline.ts";
import {
  boundsOf,
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
/** A mark: two strips of inch-wide tape across each other (common practice, no source), metres. */
const TAPE_WIDTH = 0.025;
const TAPE_LENGTH = 0.2;
/** How far an aim is drawn where the plan gives an angle and no point to look at, metres. */
const AIM_LENGTH = 1;
/** From the tip of the nose on, metres. */
const NOSE_LINE = 0.15;
const SWEEP_STEPS = 8;

export function onPaper(p: Readonly<Vec3>, view: View): PaperPoint {
  return view === "floor" ? [p[0], p[1]] : [p[1], p[2]];
}

/** An object's shapes and its name. */
export interface Part {
  readonly shapes: readonly Shape[];
  readonly label: Label;
}

/** From above what is higher is nearer; from the right wall what is farther right. */
export function depthOf(p: Readonly<Vec3>, view: View): number {
  return view === "floor" ? p[2] : p[0];
}

type Outline = readonly [kind: ShapeKind, points: readonly PaperPoint[], closed?: boolean];

function partOf(
  owner: string,
  name: string,
  at: PaperPoint,
  depth: number,
  outlines: readonly Outline[],
  off = false,
): Part {
  const shapes = outlines.map(
    ([kind, points, closed = false]): Shape => ({ kind, owner, points, closed, off, depth }),
  );
  const own = shapes.filter((s) => s.kind !== "axis" && s.kind !== "nose");
  const clear = boundsOf([...own.flatMap((s) => s.points), at]) as Extent;
  return { shapes, label: { owner, text: name, at, clear } };
}

export function backdropPart(backdrop: Backdrop, view: View): Part {
  const [x, y] = backdrop.position;
  const outline: Outline = ["backdrop", backdropOutline(backdrop, view), view === "floor"];
  return partOf("backdrop", backdrop.kind, onPaper([x, y, backdrop.top], view), 0, [outline]);
}

export function markPart(mark: Mark, owner: string, view: View): Part {
  const at = onPaper([mark.position[0], mark.position[1], 0], view);
  const depth = depthOf([mark.position[0], mark.position[1], 0], view);
  return partOf(owner, mark.name, at, depth, [["tape", tapeOutline(at, view), view === "floor"]]);
}

export function personPart(person: Person, plan: Plan, owner: string, view: View): Part {
  const staged = stagePerson(person, plan);
  const [x, y] = person.position;
  const ears: Vec3 = [x, y, staged.shape.earHeight];
  const outline = personOutline(staged, view);
  const tip = outline.noseTip;
  const end = [0, 1, 2].map((k) => tip[k] + NOSE_LINE * outline.ahead[k]);
  return partOf(owner, person.name, onPaper(ears, view), depthOf(ears, view), [
    ["body", outline.body, true],
    ["head", outline.head, true],
    ["nose", [onPaper([...tip], view), onPaper([end[0], end[1], end[2]], view)]],
    ...(view === "floor" ? cross([x, y], CROSS).map((line): Outline => ["mark", line]) : []),
  ]);
}

export function panelPart(panel: Panel, owner: string, view: View): Part {
  const at = onPaper(panel.position, view);
  return partOf(owner, panel.name, at, depthOf(panel.position, view), [
    ["panel", panelOutline(panel, view), true],
  ]);
}

export function lightPart(light: Light, owner: string, view: View): Part {
  const centre = onPaper(light.position, view);
  const front: Outline[] =
    light.face.shape === "point"
      ? cross(centre, CROSS).map((line) => ["front", line])
      : [["front", frontOutline(light, view), true]];
  const axis: Outline = ["axis", [centre, onPaper(aimPoint(light), view)]];
  return partOf(owner, light.name, centre, depthOf(light.position, view), [axis, ...front], !light.on);
}

export function meterPart(meter: Meter, owner: string, view: View): Part {
  const [across, up] = onPaper(meter.position, view);
  const ring = Array.from({ length: 16 }, (_, k): PaperPoint => {
    const a = (k * Math.PI) / 8;
    return [across + METER_RADIUS * Math.cos(a), up + METER_RADIUS * Math.sin(a)];
  });
  const { bearing_deg, tilt_deg } = directionOf(meter.direction, meter.position);
  const { forward } = axesOf(bearing_deg, tilt_deg, 0);
  const [da, du] = onPaper(forward, view);
  const hand = [1, 2.6].map((k): PaperPoint => [across + k * METER_RADIUS * da, up + k * METER_RADIUS * du]);
  return partOf(owner, meter.name, [across, up], depthOf(meter.position, view), [
    ["meter", ring, true],
    ["meter", hand],
  ]);
}

export function cameraPart(camera: Camera, view: View): Part {
  const { lens, body } = cameraShapes(camera, view);
  const at = onPaper(camera.position, view);
  return partOf("camera", "camera", at, depthOf(camera.position, view), [
    ["camera", lens, true],
    ["camera", body, true],
  ]);
}

function frontOutline(light: Light, view: View): PaperPoint[] {
  return frontCorners(light).map((corner) => onPaper(corner, view));
}

function panelOutline(panel: Panel, view: View): PaperPoint[] {
  return frontCorners(panelFront(panel)).map((corner) => onPaper(corner, view));
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

/** Two strips laid across each other, as one outline; from the side they are seen edge on. */
function tapeOutline([across, up]: PaperPoint, view: View): PaperPoint[] {
  const [w, l] = [TAPE_WIDTH / 2, TAPE_LENGTH / 2];
  const outline =
    view === "floor"
      ? [
          [-w, -l],
          [w, -l],
          [w, -w],
          [l, -w],
          [l, w],
          [w, w],
          [w, l],
          [-w, l],
          [-w, w],
          [-l, w],
          [-l, -w],
          [-w, -w],
        ]
      : [
          [-l, 0],
          [l, 0],
        ];
  return outline.map(([a, u]) => [across + a, up + u]);
}
