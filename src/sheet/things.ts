/** What has to be set up, one thing after the other, in the sheet's own words: for a screen that is held in the hand. */
import type { Plan } from "../plan/index.ts";
import type { MeterReading } from "../reading/index.ts";
import { overheadCautions } from "../safety/index.ts";
import { formatLength, type LengthUnits } from "../units/index.ts";
import type { DrawingContext } from "./drawing-notes.ts";
import type { MarkPlace, Place } from "./place.ts";
import { strongestFirst } from "./setup-order.ts";
import {
  aimWords,
  aloneReading,
  backdropWords,
  bearingWords,
  calledMeter,
  colourWords,
  exposureWords,
  faceWords,
  headWords,
  markName,
  markWords,
  noseWords,
  panelWords,
  poseWords,
  powerWords,
  rollWords,
} from "./words.ts";

export interface ThingLine {
  readonly label: string;
  readonly text: string;
}

export interface Thing {
  /** list and name: "lights/key", "people/cellist", "camera", "backdrop" */
  readonly thing: string;
  readonly name: string;
  readonly what: string;
  readonly lines: readonly ThingLine[];
  /** it hangs over somebody; null where it does not */
  readonly caution: string | null;
  /** what it does once it is where it belongs */
  readonly verb: "stands" | "sits";
}

/** The meter by which lights are set: its receptor, and what is known of its reading. */
export interface SetBy {
  readonly receptor: "flat" | "dome";
  /** "flat, pointed at key" */
  readonly held: string;
  readonly reading: MeterReading;
}

/** Everything of the plan that has a place, in the order in which the set is built: marks, backdrop, camera, lights with
 * the strongest first, those that are off, panels. `setBy` is null while nothing is known of the light. */
export function thingsInOrder(context: DrawingContext, setBy: SetBy | null): Thing[] {
  const { plan, places, units } = context;
  const out: Thing[] = [];
  const put = (
    thing: string,
    name: string,
    what: string,
    lines: readonly ThingLine[],
    caution: string | null = null,
    verb: Thing["verb"] = "stands",
  ) => out.push({ thing, name, what, lines, caution, verb });
  places.people.forEach((place, i) => {
    const person = plan.people[i];
    put(
      `people/${place.name}`,
      place.name,
      `mark, ${poseWords(person, units)}`,
      personLines(context, place, i),
      null,
      person.pose === "seated" ? "sits" : "stands",
    );
  });
  for (const mark of places.marks)
    put(`marks/${mark.name}`, mark.name, "tape on the floor", floorLines(mark, plan, units));
  if (places.backdrop !== null && plan.backdrop !== null) {
    const { backdrop } = places;
    put("backdrop", backdrop.name, backdropWords(plan.backdrop, units), [
      ...floorLines(backdrop, plan, units),
      { label: "top", text: formatLength(backdrop.height_m, units) },
      { label: "aim", text: bearingWords(backdrop.bearing_deg) },
    ]);
  }
  put("camera", "camera", exposureWords(plan.camera), aimedLines(context, places.camera, "lens high"));
  const on = strongestFirst(plan, setBy?.reading ?? null);
  const off = plan.lights.map((_, i) => i).filter((i) => !plan.lights[i].on);
  const cautions = overheadCautions(plan, places.noses);
  for (const i of [...on, ...off]) {
    const light = plan.lights[i];
    const colour = colourWords(light, plan.camera.whiteBalance);
    put(
      `lights/${light.name}`,
      light.name,
      faceWords(light.face, units) + (colour === null ? "" : `, ${colour}`),
      [...aimedLines(context, places.lights[i], "centre high"), ...powerLines(context, i, setBy)],
      cautions.find(({ path }) => path === `lights[${i}]`)?.text ?? null,
    );
  }
  places.panels.forEach((place, i) => {
    put(
      `panels/${place.name}`,
      place.name,
      panelWords(plan.panels[i], units),
      aimedLines(context, place, "centre high"),
    );
  });
  return out;
}

function personLines({ plan, units }: DrawingContext, place: MarkPlace, i: number): ThingLine[] {
  const isZero = place.mark === null && place.walls === null;
  return [
    ...(isZero
      ? [{ label: "on the floor", text: "the tape's zero" }]
      : floorLines(place.walls === null ? place : { ...place, mark: null }, plan, units)),
    { label: "nose high", text: formatLength(place.noseHeight_m, units) },
    { label: "turned", text: [bearingWords(place.bearing_deg), ...headWords(plan.people[i])].join(", ") },
  ];
}

function aimedLines({ plan, units }: DrawingContext, place: Place, height: string): ThingLine[] {
  const { nose } = place;
  const whose = plan.people.length > 1 ? ` of ${nose?.person}` : "";
  const roll = rollWords(place.roll_deg);
  const aim = aimWords(place.bearing_deg, place.tilt_deg);
  return [
    ...floorLines(place, plan, units),
    { label: height, text: formatLength(place.height_m, units) },
    ...(nose === null
      ? []
      : [
          { label: `to the nose${whose}`, text: formatLength(nose.distance_m, units) },
          { label: "seen from there", text: noseWords(nose) },
        ]),
    { label: "aim", text: roll === null ? aim : `${aim}, ${roll}` },
  ];
}

function floorLines({ walls, mark }: Place, plan: Plan, units: LengthUnits): ThingLine[] {
  if (walls !== null)
    return [
      { label: `from the ${walls.side} wall`, text: formatLength(walls.side_m, units) },
      { label: `from the ${walls.depth} wall`, text: formatLength(walls.depth_m, units) },
      ...(mark === null || mark.person === null
        ? []
        : [{ label: `from ${the(markName(mark, plan))}`, text: formatLength(mark.distance_m, units) }]),
    ];
  if (mark === null) return [];
  return [
    { label: `from ${the(markName(mark, plan))}`, text: markWords(mark, units).join(", ") },
    { label: "straight", text: formatLength(mark.distance_m, units) },
  ];
}

/** Somebody's own mark has a name before it. */
function the(name: string): string {
  return name === "mark" || name === "zero point" ? `the ${name}` : name;
}

function powerLines({ plan, units }: DrawingContext, i: number, setBy: SetBy | null): ThingLine[] {
  const light = plan.lights[i];
  const power = powerWords(light, units);
  if (!light.on) return [{ label: "power", text: `off (${power})` }];
  if (setBy === null) return [{ label: "power", text: power }];
  const { held, reading, receptor } = setBy;
  return [
    { label: "power", text: power },
    {
      label: `alone, at ${calledMeter(reading.name, held)}`,
      text: aloneReading(plan, reading, receptor, light.name),
    },
  ];
}
