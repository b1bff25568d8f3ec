/** How far the eyes, ears and nose of everybody lie from the camera, along its axis: what focus blur follows from. */
import type { Plan } from "../plan/index.ts";
import { type StagedPerson, stagePerson } from "../staging/index.ts";
import { project, viewfinder } from "./camera-rays.ts";
import { alongHead, toWorld } from "./head-axes.ts";

export type FocusPlace = "nearer eye" | "farther eye" | "nose" | "nearer ear" | "farther ear";

export interface FocusPoint {
  /** index in the plan's people */
  readonly person: number;
  readonly place: FocusPlace;
  /** from the camera along its axis, metres */
  readonly depth_m: number;
  /** shares of the whole picture, from its left and top; beyond 0 and 1 outside it */
  readonly at: readonly [x: number, y: number];
  /** behind the head, as it is turned */
  readonly isHidden: boolean;
}

export interface FocusPoints {
  /** the nearer eye of the person who is focused on */
  readonly focus_m: number;
  readonly points: readonly FocusPoint[];
}

/** How far an ear or an eye may be turned from the camera, as the sine of the angle between its side of the head and the
 * picture's plane, before the head hides it: the cheek bulges before the ear, the nose's bridge stands before the eye.
 * Source  rays at the figure's own head: the ear is gone between 10 and 15 degrees, the iris between 55 and 60;
 *         focus-points.test.ts */
const EAR_HIDDEN = Math.sin((12 * Math.PI) / 180);
const EYE_HIDDEN = Math.sin((60 * Math.PI) / 180);

/** Of everybody before the camera; the focus lies in the nearer eye of `focusOn`, as in `sharpness`.
 * Null where nobody is, or where those eyes are beside or behind the camera or nearer than it can focus. */
export function focusPoints(plan: Plan, focusOn: number): FocusPoints | null {
  const view = viewfinder(plan.camera, 1);
  const depthOf = (p: readonly number[]) =>
    [0, 1, 2].reduce((sum, k) => sum + (p[k] - view.position[k]) * view.forward[k], 0);
  const points = plan.people.flatMap((who, person): FocusPoint[] => {
    const staged = stagePerson(who, plan);
    const all = placesOf(staged, view.position).map(({ p, ...own }) => ({ ...own, p, depth_m: depthOf(p) }));
    // somebody beside or behind the camera is in no picture
    if (all.some(({ depth_m }) => !(depth_m > 0))) return [];
    const named = [
      ...nearFar(all, "eye"),
      ...all.filter(({ kind }) => kind === "nose"),
      ...nearFar(all, "ear"),
    ];
    return named.map(({ p, depth_m, isHidden, place }) => {
      const [x, y] = project(view, p) ?? [0, 0];
      return { person, place, depth_m, at: [x, y / view.height], isHidden };
    });
  });
  const focus = points.find(({ person, place }) => person === focusOn && place === "nearer eye");
  if (focus === undefined || !(focus.depth_m * 1000 > plan.camera.focalLength)) return null;
  return { focus_m: focus.depth_m, points };
}

interface Place {
  readonly kind: "eye" | "nose" | "ear";
  readonly place: FocusPlace;
  readonly p: readonly number[];
  readonly isHidden: boolean;
}

function placesOf(staged: StagedPerson, camera: readonly number[]): Place[] {
  const { landmarks, leftEye, rightEye } = staged.shape.head;
  const left = alongHead(staged, [0, 1, 0]);
  /** sine of the angle by which a side of the head is turned away */
  const away = (p: readonly number[], side: 1 | -1) => {
    const to = camera.map((c, k) => c - p[k]);
    const along = to.reduce((sum, d, k) => sum + d * left[k], 0);
    return (-side * along) / Math.hypot(...to);
  };
  const pair = (kind: "eye" | "ear", side: 1 | -1, own: ArrayLike<number>, most: number): Place => {
    const p = toWorld(staged, own);
    return { kind, place: `nearer ${kind}`, p, isHidden: away(p, side) > most };
  };
  return [
    // within half a centimetre of the iris, which is what is focused on
    pair("eye", 1, leftEye.corneaCentre, EYE_HIDDEN),
    pair("eye", -1, rightEye.corneaCentre, EYE_HIDDEN),
    { kind: "nose", place: "nose", p: toWorld(staged, landmarks.noseTip), isHidden: false },
    pair("ear", 1, landmarks.leftEar, EAR_HIDDEN),
    pair("ear", -1, landmarks.rightEar, EAR_HIDDEN),
  ];
}

/** The two of a kind under the names that their depths give them. */
function nearFar<T extends Place & { readonly depth_m: number }>(
  all: readonly T[],
  kind: "eye" | "ear",
): T[] {
  const [near, far] = all.filter((each) => each.kind === kind).sort((a, b) => a.depth_m - b.depth_m);
  return [near, { ...far, place: `farther ${kind}` as const }];
}
