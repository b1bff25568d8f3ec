/** What a careful assistant would say before the first frame: state, margin, remedy. */
import { frontTop, type Plan } from "../plan/index.ts";
import { CEILING_AIR_M, isShort } from "../safety/index.ts";
import { formatFStops } from "../units/index.ts";
import { DARK } from "./pattern.ts";
import type { TryReading } from "./try-reading.ts";
import type { CameraReading, PersonReading, Warning } from "./types.ts";

/** Skin closer to clipping than this is called out, stops. */
const LITTLE_HEADROOM = 0.3;
/** A light's front that reaches within this of a person on the floor plan hangs over them, metres. */
const OVER_PERSON = 0.35;

export function warningsFor(plan: Plan, camera: CameraReading, people: readonly PersonReading[]): Warning[] {
  const dark = people.map(({ face }) => face.pattern === "dark");
  return [...skinWarnings(plan, camera), ...placeWarnings(plan), ...darkWarnings(plan, dark)];
}

/** The same from what was tried alone: what glints is not told from skin that is bright. */
export function tryWarnings(plan: Plan, { headroomStops, litCheeks }: TryReading): Warning[] {
  const camera = { headroomStops, withoutShine: { headroomStops: null } };
  const dark = litCheeks.map((litCheek) => litCheek < DARK);
  return [...skinWarnings(plan, camera), ...placeWarnings(plan), ...darkWarnings(plan, dark)];
}

interface SkinShown {
  readonly headroomStops: number | null;
  readonly withoutShine: { readonly headroomStops: number | null };
}

function skinWarnings(plan: Plan, camera: SkinShown): Warning[] {
  const room = camera.headroomStops;
  if (room === null || room >= LITTLE_HEADROOM) return [];
  const need = LITTLE_HEADROOM - room;
  const stop = formatFStops(plan.camera.fNumber * 2 ** (need / 2));
  const close = `close the lens to ${stop}, or take the power down ${need.toFixed(1)} stop`;
  const matt = camera.withoutShine.headroomStops;
  // only its glints come so near: they can be taken off the skin instead
  const powder = matt !== null && matt >= LITTLE_HEADROOM;
  return [
    {
      path: "camera",
      state: `${powder ? "shine on skin" : "skin"} is ${room < 0 ? "clipped" : "close to clipping"}`,
      margin: room < 0 ? `${(-room).toFixed(1)} stop over` : `${room.toFixed(1)} stop left`,
      remedy: powder ? `powder, which leaves ${matt.toFixed(1)} stop; or ${close}` : close,
    },
  ];
}

/** What can be told from where things stand alone. */
function placeWarnings(plan: Plan): Warning[] {
  return [...overWarnings(plan), ...ceilingWarnings(plan)];
}

function ceilingWarnings({ lights, room }: Plan): Warning[] {
  if (room === null) return [];
  return lights.flatMap((light, i) => {
    const top = frontTop(light);
    if (!isShort(room.height - top, CEILING_AIR_M)) return [];
    return [
      {
        path: `lights[${i}]`,
        state: `${light.name} may touch the ceiling`,
        margin: `top of its front ${top.toFixed(2)} m, tilt counted, ceiling ${room.height.toFixed(2)} m`,
        remedy: "lower it, tilt it, or take a smaller front",
      },
    ];
  });
}

function overWarnings(plan: Plan): Warning[] {
  const out: Warning[] = [];
  plan.lights.forEach((light, i) => {
    if (light.face.shape === "point") return;
    const reach = light.face.width / 2;
    plan.people.forEach((person, p) => {
      const away = Math.hypot(light.position[0] - person.position[0], light.position[1] - person.position[1]);
      if (light.position[2] < person.stature || away - reach > OVER_PERSON) return;
      out.push({
        path: `lights[${i}]`,
        state: `${light.name} reaches over ${plan.people[p].name}`,
        margin: `its rim comes within ${Math.max(0, away - reach).toFixed(2)} m of the mark, ${light.position[2].toFixed(2)} m up`,
        remedy:
          "counterweight, bag over the leg under the load, a tether, and nobody beneath while it moves; local rules and a competent person decide",
      });
    });
  });
  return out;
}

function darkWarnings(plan: Plan, dark: readonly boolean[]): Warning[] {
  return plan.people.flatMap(({ name }, i) =>
    dark[i]
      ? [
          {
            path: `people[${i}]`,
            state: `no light reaches the face of ${name}`,
            margin: "under 0.001 lx·s on both cheeks",
            remedy: "switch a light on or move what stands between",
          },
        ]
      : [],
  );
}
