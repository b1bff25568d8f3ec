/** Things of the shelf put into a plan: a head, what is on it and what holds it, for one light. */
import type { Edit, FieldPath, Light, Output, Plan, Support } from "../plan/index.ts";
import { writePower } from "../plan/index.ts";
import { formatLength, formatWeight, type LengthUnits } from "../units/index.ts";
import { axisShare, axisShareOf, energyNow, toFace } from "./at-face.ts";
import { type Front, fullLumens, guideNumberOf } from "./enter.ts";
import type { ShelfHead, ShelfModifier, ShelfStand } from "./schema.ts";

/** What is put on: what is left out stays as it is; a modifier that is null is taken off. */
export interface Putting {
  readonly head?: ShelfHead;
  /** goes with a head only: what a front loses is told against the bare head */
  readonly modifier?: ShelfModifier | null;
  readonly stand?: ShelfStand;
}

export interface PutOn {
  readonly edit: Edit;
  /** what becomes of power and weights, in words */
  readonly says: string;
}

/** How far a dial may be off what is asked before that is said, stops. */
const HEARD = 0.05;

/** A light of the plan with things of the shelf on it, as one step. Place and direction stay; the dial is turned so that the
 * face keeps what it gets from this light on the front's axis, as near as dial and step allow.
 * Domain  index: of a light of the plan
 * Errors  none: what could not be kept is in `says` */
export function putOn(plan: Plan, index: number, putting: Putting, units: LengthUnits = "metric"): PutOn {
  const { head, modifier, stand } = putting;
  const light = plan.lights[index];
  const says: string[] = [];
  const fields: { path: FieldPath; value: unknown }[] = [];
  const put = (values: Readonly<Record<string, unknown>>) => {
    for (const [name, value] of Object.entries(values)) fields.push({ path: ["lights", index, name], value });
  };
  if (head) {
    const front: Front = modifier ?? head.bare;
    const lost = modifier?.loss.stops ?? 0;
    const wanted = energyNow(light, plan) * axisShareOf(light, plan, toFace(plan, light));
    const full = fullLumens(head.full) * 2 ** -lost * axisShare(front, toFace(plan, light));
    const power = dialTo(Math.log2(full / wanted), head.dial);
    const { beam, face } = front;
    put({
      face,
      beam: { exponent: beam.exponent, edgeDrop: beam.edgeDrop },
      output: outputOf(head, front, lost, power.stopsDown),
      kelvin: head.kelvin,
      dial: head.dial,
      head: headOf(light, head, modifier ?? null),
      // what was measured was measured of another head or front
      calibration: null,
    });
    says.push(powerSays(head, power));
  }
  const support = supportOf(light, putting, units);
  if (support.value !== null) put({ support: support.value });
  says.push(...support.says);
  if (stand) says.push(...heightSays(light, stand, units));
  const what = [modifier, head, stand].flatMap((thing) => (thing ? [thing.name] : []));
  return {
    edit: { kind: "set", label: `${what.join(" on ")} for ${light.name}`, fields },
    says: says.join("; "),
  };
}

interface DialPower {
  readonly stopsDown: number;
  /** above 0: weaker than asked; below 0: stronger */
  readonly missing: number;
}

function dialTo(wanted_stopsDown: number, { range, step }: ShelfHead["dial"]): DialPower {
  const onStep = Math.round(wanted_stopsDown / step) * step;
  const stopsDown = Number(Math.min(range, Math.max(0, onStep)).toFixed(6));
  return { stopsDown, missing: stopsDown - wanted_stopsDown };
}

function powerSays({ dial, full }: ShelfHead, { missing, stopsDown }: DialPower): string {
  const set = `power ${writePower(stopsDown, dial, "wattSeconds" in full ? full.wattSeconds : null)}`;
  if (Math.abs(missing) <= HEARD) return `${set}: the face keeps what it had`;
  const by = Math.abs(missing).toFixed(1);
  if (stopsDown === 0 && missing > 0) return `${set}, its most: the face gets ${by} stops less`;
  if (stopsDown === dial.range && missing < 0) return `${set}, its least: the face gets ${by} stops more`;
  return `${set}: the face gets ${by} stops ${missing > 0 ? "less" : "more"}, which is its step`;
}

/** A head without watt-seconds is told by the guide number that it has through its front: that keeps its dial. */
function outputOf({ full }: ShelfHead, front: Front, lost: number, stopsDown: number): Output {
  if ("wattSeconds" in full)
    return {
      wattSeconds: full.wattSeconds,
      lumensPerWatt: full.lumensPerWatt,
      efficiency: 2 ** -lost,
      stopsDown,
    };
  const through = { lumenSeconds: full.lumenSeconds * 2 ** -lost };
  const iso = 100;
  return { guideNumber: guideNumberOf({ bare: front, full: through }, iso), iso, stopsDown };
}

function headOf(light: Light, head: ShelfHead, modifier: ShelfModifier | null): Light["head"] {
  const { charging, duration, lampWatts, name, recycle } = head;
  return {
    name,
    ...(modifier === null ? {} : { modifier: modifier.name }),
    recycle,
    duration,
    lampWatts,
    charging,
    circuit: light.head?.circuit ?? null,
  };
}

interface Held {
  /** null where the plan's stays as it is */
  readonly value: Support | null;
  readonly says: readonly string[];
}

/** What holds it, with its load where that is known. */
function supportOf({ support }: Light, { head, modifier, stand }: Putting, units: LengthUnits): Held {
  const load = head ? loadOf(head, modifier ?? null) : (support?.load ?? null);
  const says: string[] = [];
  if (load === null && (stand || support))
    says.push(
      support === null
        ? "weigh head and front: what is not weighed stands on no stand of the plan"
        : "its load stays as it was: weigh head and front",
    );
  const carries = load ?? support?.load ?? null;
  if (carries === null) return { value: null, says };
  if (stand?.mass === null)
    says.push(`${stand.name} is not weighed: ${formatWeight(USUAL_STAND_KG, units)} taken`);
  if (stand) return { value: standing(stand, support, carries), says };
  return { value: support && { ...support, load: carries }, says };
}

/** As in the plan's format (common practice, no source). */
const USUAL_STAND_KG = 3;

/** A stand of the shelf under a load, with the bag and the leg that stand there already. */
export function standing(stand: ShelfStand, before: Support | null, load: number): Support {
  const { arm, footRadius, isWheeled, legs, mass, name } = stand;
  return {
    name,
    legs,
    footRadius,
    mass: mass ?? USUAL_STAND_KG,
    bag: before?.bag ?? 0,
    load,
    legUnderLoad: before?.legUnderLoad ?? false,
    // which way it points is the plan's: the shelf has none
    arm: arm && { ...arm, bearing: before?.arm?.bearing ?? null },
    isWheeled,
  };
}

function loadOf(head: ShelfHead, modifier: ShelfModifier | null): number | null {
  if (head.mass === null || modifier?.mass === null) return null;
  return Number((head.mass + (modifier?.mass ?? 0)).toFixed(3));
}

function heightSays(
  { position }: Light,
  { highest, lowest, name }: ShelfStand,
  units: LengthUnits,
): string[] {
  const height = position[2];
  if (height >= lowest && height <= highest) return [];
  const reach =
    height > highest
      ? `reaches ${formatLength(highest, units)}`
      : `goes down to ${formatLength(lowest, units)}`;
  return [`${name} ${reach}, the front's centre is at ${formatLength(height, units)}`];
}
