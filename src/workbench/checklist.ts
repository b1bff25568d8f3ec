/** What is set up one thing after the other, for a screen that shows one at a time: what is done, how it is found again without
 * a tape, and what is said aloud so that the other hears it was understood. */
import { bodyReaches, reachLine } from "../finder/index.ts";
import type { Plan } from "../plan/index.ts";
import { cautionsFor } from "../safety/index.ts";
import {
  calledMeter,
  measurePlaces,
  meterWords,
  type Places,
  type SetBy,
  settingMeter,
  type Thing,
  thingsInOrder,
} from "../sheet/index.ts";
import type { LengthUnits } from "../units/index.ts";
import { type KnownMeters, readingOfMeter } from "./live-readings.ts";

export interface ChecklistThing extends Thing {
  /** that it hangs over somebody, and what its own weights ask for; null where nothing is to be said of it */
  readonly caution: string | null;
  /** how its distance is found again without a tape, and what that is off by; null for what has none */
  readonly reach: string | null;
  /** said aloud once it stands: "key: f/8 + 0.3 alone at chin, flat, pointed at key" */
  readonly readBack: string;
}

/** Shape    in the order of setting up [CK1] to [CK4]
 * Units    lengths and powers as people read them, in `units`
 * Errors   none for a plan that was checked */
export function checklist(
  plan: Plan,
  units: LengthUnits,
  known: KnownMeters | null,
  places: Places = measurePlaces(plan),
): ChecklistThing[] {
  const setBy = setByOf(plan, places, known);
  const owners = ownersOf(plan);
  const reaches = new Map(bodyReaches(plan, units).map((reach) => [reach.owner, reach]));
  const cautions = cautionsFor(plan, places.noses, units);
  return thingsInOrder({ plan, places, units }, setBy).map((thing) => {
    const owner = owners.get(thing.thing);
    const reach = owner === undefined ? undefined : reaches.get(owner);
    const effect = known?.reach?.find((each) => each.owner === owner) ?? null;
    const said = cautions.filter(({ path }) => path !== null && path === owner).map(({ text }) => text);
    return {
      ...thing,
      caution: said.length === 0 ? thing.caution : said.join(" "),
      reach: reach === undefined ? null : reachLine(reach, effect, units),
      readBack: readBackOf(thing, setBy),
    };
  });
}

/** The path of each thing whose distance is measured. */
function ownersOf({ lights, panels }: Plan): ReadonlyMap<string, string> {
  return new Map([
    ...lights.map(({ name }, i) => [`lights/${name}`, `lights[${i}]`] as const),
    ...panels.map(({ name }, i) => [`panels/${name}`, `panels[${i}]`] as const),
    ["camera", "camera"] as const,
  ]);
}

/** What is said on top of everything, and what follows from the plan's numbers or is said every time. */
export function checklistCautions(
  plan: Plan,
  units: LengthUnits,
  places: Places = measurePlaces(plan),
): { readonly overhead: readonly string[]; readonly others: readonly string[] } {
  const all = cautionsFor(plan, places.noses, units);
  const texts = (isOverhead: boolean) =>
    all.filter(({ kind }) => (kind === "overhead") === isOverhead).map(({ text }) => text);
  return { overhead: texts(true), others: texts(false) };
}

function setByOf(plan: Plan, { noses }: Places, known: KnownMeters | null): SetBy | null {
  const index = settingMeter(plan, noses);
  if (index === null) return null;
  const { name, receptor } = plan.meters[index];
  const reading = readingOfMeter(known, name);
  return reading === null || receptor === "spot"
    ? null
    : { receptor, held: meterWords(plan, index, noses), reading };
}

/** The one number by which a wrong setting is heard: of a light what the meter reads of it alone, and which meter that is, else
 * its power; of the camera the exposure; of a person the height of the nose; of anything else where it stands. */
function readBackOf({ thing, name, what, lines }: Thing, setBy: SetBy | null): string {
  const text = (wanted: string) => lines.find(({ label }) => label.startsWith(wanted))?.text;
  if (thing === "camera") return `camera: ${what}`;
  if (thing.startsWith("lights/")) {
    const alone = text("alone");
    if (alone === undefined || setBy === null) return `${name}: ${text("power") ?? what}`;
    return `${name}: ${alone} alone at ${calledMeter(setBy.reading.name, setBy.held)}`;
  }
  if (thing.startsWith("people/")) return `${name}: nose ${text("nose high") ?? what} high`;
  const [first, second] = lines;
  return `${name}: ${[first, second].flatMap((line) => (line === undefined ? [] : [line.text])).join(", ")}`;
}
