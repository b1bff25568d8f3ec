/** What a careful assistant would say before the first frame: state, margin, remedy. */
import type { Plan } from "../plan/index.ts";
import { atCeiling, CEILING_CURE, ceilingWord, overheads } from "../safety/index.ts";
import { shapeOf } from "../staging/index.ts";
import { formatFStops } from "../units/index.ts";
import { DARK } from "./pattern.ts";
import type { TryReading } from "./try-reading.ts";
import type { CameraReading, PersonReading, Warning } from "./types.ts";

/** Skin closer to clipping than this is called out, stops. */
const LITTLE_HEADROOM = 0.3;

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
      about: "light",
      path: "camera",
      state: `${powder ? "shine on skin" : "skin"} is ${room < 0 ? "clipped" : "close to clipping"}`,
      margin: room < 0 ? `${(-room).toFixed(1)} stop over` : `${room.toFixed(1)} stop left`,
      remedy: powder ? `powder, which leaves ${matt.toFixed(1)} stop; or ${close}` : close,
    },
  ];
}

/** What can be told from where things stand alone, by the rules of the cautions. */
function placeWarnings(plan: Plan): Warning[] {
  const people = plan.people.map((person) => ({ staged: { shape: shapeOf(person) } }));
  return [
    ...overheads(plan, people).flatMap(({ cure, does, held, name, over, path }) =>
      over.map(
        (person): Warning => ({
          about: "place",
          path,
          state: `${name} ${does} ${person.name}`,
          margin: `its rim comes within ${person.away_m.toFixed(2)} m of the mark, ${held.position[2].toFixed(2)} m up`,
          remedy: `${cure}; local codes and licensed people decide`,
        }),
      ),
    ),
    ...atCeiling(plan).map(
      ({ air_m, name, owner }): Warning => ({
        about: "place",
        path: owner,
        state: `${name} may touch the ceiling`,
        margin: ceilingWord(air_m, "metric"),
        remedy: CEILING_CURE,
      }),
    ),
  ];
}

function darkWarnings(plan: Plan, dark: readonly boolean[]): Warning[] {
  return plan.people.flatMap(({ name }, i) =>
    dark[i]
      ? [
          {
            about: "light" as const,
            path: `people[${i}]`,
            state: `no light reaches the face of ${name}`,
            margin: "under 0.001 lx·s on both cheeks",
            remedy: "switch a light on or move what stands between",
          },
        ]
      : [],
  );
}
