/** A reading while it is entered, and the edits that put it into the plan. */
import { ALL_LIGHTS, type Edit, type Plan, placeOf, type Reading, readingOf } from "../plan/index.ts";
import { formatFStops } from "../units/index.ts";
import { freeName } from "./adding.ts";
import {
  type Aim,
  aimsOf,
  choicesOf,
  type HeldAt,
  heldPlaces,
  lightWords,
  placed,
  receptorsOf,
} from "./readings-places.ts";

export interface Draft {
  /** name of a light, or all */
  readonly light: string;
  /** key of a place */
  readonly at: string;
  readonly receptor: NonNullable<Reading["receptor"]>;
  readonly aim: Aim;
  readonly fNumber: number | null;
  readonly iso: number;
}

export function firstDraft(plan: Plan): Draft {
  const [held] = heldPlaces(plan);
  return settled(plan, {
    light: ALL_LIGHTS,
    at: held?.key ?? "",
    receptor: held?.receptor ?? "dome",
    aim: "planned",
    fNumber: null,
    iso: plan.camera.iso,
  });
}

/** What somebody chose, with what no longer goes with it put right. */
export function settled(plan: Plan, draft: Draft): Draft {
  const places = heldPlaces(plan);
  const held = places.find(({ key }) => key === draft.at) ?? places[0];
  if (held === undefined) return draft;
  const light = plan.lights.some(({ name }) => name === draft.light) ? draft.light : ALL_LIGHTS;
  const receptors = receptorsOf(held);
  const receptor = receptors.includes(draft.receptor) ? draft.receptor : (held.receptor ?? "dome");
  const aims = aimsOf(plan, held, light, receptor);
  const aim = aims.includes(draft.aim) ? draft.aim : (aims[0] as Aim);
  return { ...draft, at: held.key, light, receptor, aim };
}

export function heldAt(plan: Plan, draft: Draft): HeldAt | null {
  return heldPlaces(plan).find(({ key }) => key === draft.at) ?? null;
}

/** Null while something is still to be said. */
export function addReading(plan: Plan, draft: Draft): Edit | null {
  const held = heldAt(plan, draft);
  if (held === null || draft.fNumber === null) return null;
  const { fNumber, iso, light } = draft;
  const name = freeName(
    "reading 1",
    plan.readings.map((each) => each.name),
  );
  const item = {
    name,
    ...readingOf(plan, { light, fNumber, iso, ...placed(plan, held, light, draft.aim, draft.receptor) }),
  };
  return {
    kind: "add",
    label: `reading ${formatFStops(fNumber)}, ${lightWords(light)}`,
    list: "readings",
    item,
  };
}

export function draftOf(plan: Plan, reading: Reading): Draft {
  const { aim, held } = choicesOf(plan, reading);
  const { light, fNumber, iso } = reading;
  const { receptor } = placeOf(plan, reading);
  return settled(plan, { light, at: held?.key ?? "", receptor, aim, fNumber, iso });
}

/** The same reading, said otherwise: made with the lights as they stood then. */
export function changeReading(plan: Plan, index: number, draft: Draft): Edit | null {
  const held = heldAt(plan, draft);
  const reading = plan.readings[index];
  if (held === null || draft.fNumber === null || reading === undefined) return null;
  const { meter: _meter, ...rest } = reading;
  const place = placed(plan, held, draft.light, draft.aim, draft.receptor);
  const value = { ...rest, light: draft.light, fNumber: draft.fNumber, iso: draft.iso, ...place };
  return {
    kind: "set",
    label: `${reading.name} changed to ${formatFStops(draft.fNumber)}`,
    fields: [{ path: ["readings", index], value }],
  };
}

export function removeReading({ readings }: Plan, index: number): Edit {
  return {
    kind: "remove",
    label: `take away ${readings[index]?.name ?? "a reading"}`,
    list: "readings",
    index,
  };
}
