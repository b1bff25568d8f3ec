/** One sitter as the search sees them: rows of shares for lights that may stand anywhere, and what is read off their sums.
 * What stands still is worked out once for a sitter and a place of the camera. */

import type { Emitter } from "../engine/index.ts";
import { incidentFNumber, METER_CONSTANT } from "../photometry/index.ts";
import type { Light, Panel, Plan, Vec3 } from "../plan/index.ts";
import { axesOf, directionOf } from "../plan/index.ts";
import { viewfinder } from "../reading/camera-rays.ts";
import { type Cornea, corneaOf, onIris, writeMirrorNormal } from "../reading/cornea.ts";
import { QuickSet, ROW_TAIL } from "../reading/index.ts";
import { quickEdgeMillimetres } from "../reading/try-edge.ts";
import { emitterOf, type StagedPerson, stageLight } from "../staging/index.ts";

const DEGREE = Math.PI / 180;

/** A row with what is asked of it most, per unit of it: the means over the cheeks. */
export interface Row {
  readonly values: Float64Array;
  left: number;
  right: number;
  /** of all samples: by it the strongest light is told */
  total: number;
}

/** Pinned lights and the ambient, lx.s; the light among them that gives the face most, and how much. */
export interface Pinned {
  readonly row: Row;
  readonly strongest: Light | null;
  readonly most: number;
}

export interface Eyes {
  readonly left: Cornea;
  readonly right: Cornea;
}

export class FaceModel {
  readonly set: QuickSet;
  readonly staged: StagedPerson;
  private kept: Pinned | null = null;
  private readonly eyes: Eyes;
  /** degrees to the own left at which the camera stands from the nose */
  private readonly cameraRound_deg: number;

  constructor(
    readonly plan: Plan,
    readonly person: number,
  ) {
    this.set = quickSetOf(plan, person);
    this.staged = this.set.staged;
    const view = viewfinder(plan.camera, 1000);
    const { leftEye, rightEye } = this.staged.shape.head;
    this.eyes = { left: corneaOf(this.staged, leftEye, view), right: corneaOf(this.staged, rightEye, view) };
    this.cameraRound_deg = this.roundOf(plan.camera.position);
  }

  newRow(): Row {
    return { values: new Float64Array(this.set.rowLength), left: 0, right: 0, total: 0 };
  }

  /** What a light sends, per unit of its output as it stands in `light`: lx.s in all. */
  writeLight(light: Light, row: Row) {
    const emitter = emitterOf(light, this.plan);
    const { lumenSeconds, meterWeights } = stageLight(light, this.plan);
    this.set.writeRow(emitter, this.set.front(emitter), row.values, meterWeights);
    this.scale(row, lumenSeconds);
    this.measure(row);
  }

  /** lm.s that it sends out, as a meter weighs its colour. */
  lumensOf(light: Light): number {
    const { lumenSeconds, meterWeights } = stageLight(light, this.plan);
    return lumenSeconds * (meterWeights[0] + meterWeights[1] + meterWeights[2]);
  }

  /** What a panel sends for each lx.s that falls on it, evenly: a front of its own. */
  writePanel(panel: Panel, reflectance: number, row: Row) {
    const { bearing_deg, tilt_deg } = directionOf(panel.direction, panel.position);
    const axes = axesOf(bearing_deg, tilt_deg, panel.roll);
    const emitter: Emitter = {
      shape: "rectangle",
      centre: Float64Array.from(panel.position),
      right: Float64Array.from(axes.right),
      up: Float64Array.from(axes.up),
      forward: Float64Array.from(axes.forward),
      halfWidth: panel.width / 2,
      halfHeight: panel.height / 2,
      sides: 0,
      exponent: 1,
      edgeDrop: 0,
      distribution: null,
    };
    this.set.writeRow(emitter, this.set.front(emitter), row.values);
    this.scale(row, reflectance * panel.width * panel.height);
    this.measure(row);
  }

  private scale({ values }: Row, by: number) {
    for (let i = 0; i < values.length; i++) values[i] *= by;
  }

  /** What is asked of a row most. */
  measure(row: Row) {
    const { count } = this.set.face.samples;
    row.left = this.set.cheek(row.values, 0);
    row.right = this.set.cheek(row.values, 1);
    row.total = 0;
    for (let s = 0; s < count; s++) row.total += row.values[s];
  }

  /** How softly the nose's shadow of a light ends, millimetres. */
  edgeOf(light: Light, litSide: "left" | "right" | "even"): number | null {
    return quickEdgeMillimetres(this.staged, emitterOf(light, this.plan), litSide === "right" ? -1 : 1);
  }

  /** As much from everywhere: lx.s on every sample; below 0 takes away. */
  addEven(row: Row, luxSeconds: number) {
    const { count } = this.set.face.samples;
    for (let s = 0; s < count; s++) row.values[s] = Math.max(0, row.values[s] + luxSeconds);
    row.values[count + ROW_TAIL.sum] += 4 * luxSeconds;
    row.left += luxSeconds;
    row.right += luxSeconds;
  }

  /** What is there before any light is placed, worked out when it is first asked for. */
  get pinned(): Pinned {
    this.kept ??= this.findPinned();
    return this.kept;
  }

  get base(): Row {
    return this.pinned.row;
  }

  private findPinned(): Pinned {
    const own = this.newRow();
    const row = this.newRow();
    let strongest: Light | null = null;
    let most = 0;
    for (const light of this.plan.lights) {
      if (!light.on) continue;
      this.writeLight(light, own);
      if (own.total > most) [strongest, most] = [light, own.total];
      for (let i = 0; i < own.values.length; i++) row.values[i] += own.values[i];
    }
    this.measure(row);
    const ambient = this.plan.ambient.lux * this.plan.camera.shutter;
    if (ambient > 0) this.addEven(row, ambient);
    return { row, strongest, most };
  }

  /** Which side of the nose the camera stands, + to the own left. */
  private roundOf(point: Readonly<Vec3>): number {
    const { headRotation: r, headOffset } = this.staged;
    const d = [0, 1, 2].map((k) => point[k] - headOffset[k]);
    const ahead = r[0] * d[0] + r[3] * d[1] + r[6] * d[2];
    const left = r[1] * d[0] + r[4] * d[1] + r[7] * d[2];
    return Math.atan2(left, ahead) / DEGREE;
  }

  /** As `sideSeen` of a whole reading has it. */
  readonly sideOf = (litSide: "left" | "right" | "even"): "broad" | "short" | "square" => {
    if (Math.abs(this.cameraRound_deg) <= SQUARE_DEGREES || litSide === "even") return "square";
    return this.cameraRound_deg > 0 === (litSide === "left") ? "broad" : "short";
  };

  /** Where the middle of a front shows in the eyes, by the law of reflection. */
  catchlights(light: Light): { eye: "left" | "right"; light: string; clock: number }[] {
    const out: { eye: "left" | "right"; light: string; clock: number }[] = [];
    for (const eye of ["left", "right"] as const) {
      const cornea = this.eyes[eye];
      writeMirrorNormal(cornea.centre, cornea.radius, cornea.camera, light.position, normal);
      const turned = normal[0] * cornea.axis[0] + normal[1] * cornea.axis[1] + normal[2] * cornea.axis[2];
      if (turned < cornea.reach) continue;
      for (let k = 0; k < 3; k++) spot[k] = cornea.centre[k] + cornea.radius * normal[k];
      const [x, y] = onIris(cornea, spot);
      if (y > UNDER_LID || y < -OVER_LID) continue;
      const hours = Math.atan2(x, y) / DEGREE / DEGREES_PER_HOUR;
      out.push({ eye, light: light.name, clock: hours <= 0 ? hours + 12 : hours });
    }
    return out;
  }

  /** At which the brighter cheek is exposed as metered. */
  fNumberOf(luxSeconds: number): number {
    return incidentFNumber(luxSeconds, this.plan.camera.iso, METER_CONSTANT.flat);
  }
}

const SQUARE_DEGREES = 10;
const DEGREES_PER_HOUR = 30;
/** The lids leave so much of the iris over and under its middle, in its radii: a first look, which the tracing checks. */
const UNDER_LID = 0.8;
const OVER_LID = 0.95;
const normal = [0, 0, 0];
const spot = [0, 0, 0];

/** The angles of a head on its shoulders take longest: the last few are kept. The answer does not depend on it. */
const sets: { key: string; set: QuickSet }[] = [];
const SETS_KEPT = 3;

function quickSetOf(plan: Plan, person: number): QuickSet {
  const { people, camera, room, backdrop, panels } = plan;
  const follows = people[person].head.follows === "camera" ? camera.position : null;
  const key = JSON.stringify([people, person, follows, room, backdrop, panels]);
  const kept = sets.find((entry) => entry.key === key);
  if (kept !== undefined) return kept.set;
  const set = new QuickSet(plan, person);
  sets.unshift({ key, set });
  if (sets.length > SETS_KEPT) sets.pop();
  return set;
}
