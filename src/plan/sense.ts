/** What a plan must be beyond its fields: names told apart, things inside the room, numbers that fit each other. */
import type { Problem } from "./problems.ts";
import type { Plan } from "./schema.ts";

export function senseProblems(plan: Plan): Problem[] {
  const out: Problem[] = [];
  for (const kind of ["lights", "panels", "people", "meters"] as const) sameNames(plan, kind, out);
  plan.lights.forEach((light, i) => {
    inside(plan, `lights[${i}].position`, light.position, out);
    aimed(`lights[${i}].direction`, light.position, light.direction, out);
    if (light.face.shape !== "point" && light.beam.exponent < 1) {
      out.push({
        path: `lights[${i}].beam.exponent`,
        what: `must be a number from 1 to 60 for a face with a size; it is ${light.beam.exponent}`,
      });
    }
  });
  plan.panels.forEach((panel, i) => {
    inside(plan, `panels[${i}].position`, panel.position, out);
    aimed(`panels[${i}].direction`, panel.position, panel.direction, out);
    const r = typeof panel.reflectance === "number" ? panel.reflectance : Math.max(...panel.reflectance);
    if (r + panel.transmittance > 1) {
      out.push({
        path: `panels[${i}].transmittance`,
        what: `reflectance + transmittance must be at most 1; they are ${r} and ${panel.transmittance}`,
      });
    }
  });
  plan.people.forEach((person, i) => {
    inside(plan, `people[${i}].position`, [...person.position, 0], out);
    if (plan.room && person.stature > plan.room.height && person.pose === "standing") {
      out.push({
        path: `people[${i}].stature`,
        what: `${person.stature} m does not fit under a ceiling of ${plan.room.height} m`,
      });
    }
  });
  inside(plan, "camera.position", plan.camera.position, out);
  aimed("camera.direction", plan.camera.position, plan.camera.direction, out);
  plan.meters.forEach((meter, i) => {
    inside(plan, `meters[${i}].position`, meter.position, out);
    aimed(`meters[${i}].direction`, meter.position, meter.direction, out);
  });
  if (plan.backdrop) inside(plan, "backdrop.position", [...plan.backdrop.position, 0], out);
  return out;
}

function sameNames(plan: Plan, kind: "lights" | "panels" | "people" | "meters", out: Problem[]) {
  const first = new Map<string, number>();
  plan[kind].forEach((thing, i) => {
    const earlier = first.get(thing.name);
    if (earlier === undefined) first.set(thing.name, i);
    else
      out.push({
        path: `${kind}[${i}].name`,
        what: `"${thing.name}" is also the name of ${kind}[${earlier}]; give each its own`,
      });
  });
}

const AXES = ["x", "y", "z"] as const;

/** On a wall, the floor or the ceiling counts as inside. */
function inside(plan: Plan, path: string, p: readonly number[], out: Problem[]) {
  if (!plan.room) return;
  const size = [plan.room.width, plan.room.depth, plan.room.height];
  p.forEach((value, k) => {
    if (value >= 0 && value <= size[k]) return;
    const where = k === 2 && value < 0 ? "under the floor" : "outside the room";
    out.push({
      path: `${path}[${k}]`,
      what: `${AXES[k]} = ${value} m is ${where}; give a number from 0 to ${size[k]} m`,
    });
  });
}

function aimed(path: string, from: readonly number[], direction: object, out: Problem[]) {
  if (!("at" in direction)) return;
  const at = direction.at as readonly number[];
  if (at.every((v, k) => v === from[k]))
    out.push({ path: `${path}.at`, what: "is the same point as the position; aim at another" });
}
