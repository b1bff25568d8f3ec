/** What follows from this plan's own numbers: each says what, by how much, and what to do. */
import type { Plan } from "../plan/index.ts";
import { formatLength, formatMoment, type LengthUnits } from "../units/index.ts";
import { feedsOf, heldAgainst_A } from "./mains.ts";
import { chargingLoad, loadWord, meanLoad } from "./mains-rows.ts";
import {
  atCeiling,
  CEILING_CURE,
  ceilingWord,
  highest,
  isShort,
  sprinklerWord,
  UNDER_SPRINKLERS_M,
} from "./room-rows.ts";
import { casesOf, supportsOf, type TippingCase } from "./support-rows.ts";
import { momentsOf } from "./tipping.ts";
import type { Caution } from "./types.ts";
import { ampWords, listed } from "./words.ts";

/** From so many flashes a second on they are named for themselves.
 * Source  published-checks section 14: seizures by flashes are common from 3 to 30 a second, some to 60, uncommon under 3
 *         (Epilepsy Society); WCAG 2.3.1 allows at most three in any second */
export const FLASHES_A_SECOND = 3;

export function cautionsHere(plan: Plan, units: LengthUnits): Caution[] {
  return [
    ...flashing(plan),
    ...tipping(plan, units),
    ...ceilings(plan, units),
    ...sprinklers(plan, units),
    ...mains(plan),
  ];
}

function here(path: string | null, text: string): Caution {
  return { kind: "here", path, people: [], text };
}

function flashing({ lights, shooting }: Plan): Caution[] {
  if (shooting === null || !lights.some(({ on }) => on)) return [];
  const rate = 1 / shooting.everySeconds;
  if (rate < FLASHES_A_SECOND) return [];
  return [
    here(
      null,
      `${rate.toFixed(1)} flashes a second: from 3 to 30 a second seizures by flashes are common, up to 60 they happen. ` +
        "Ask everyone who is in the room, and anyone who looks on; a second and more between flashes is slower than that.",
    ),
  ];
}

/** One caution a support: what turns it over as planned, else what does once something is off. */
function tipping(plan: Plan, units: LengthUnits): Caution[] {
  return supportsOf(plan).flatMap(({ name, owner, support }) => {
    const over = casesOf(support)
      .map((each) => ({ each, ...momentsOf(support, each.way, each.off) }))
      .filter(({ holding_Nm, turning_Nm }) => turning_Nm > 0 && holding_Nm <= turning_Nm);
    if (over.length === 0) return [];
    const said = over.map(
      ({ each, holding_Nm, turning_Nm }) =>
        `${each.what}, ${formatMoment(turning_Nm, units)} against ${formatMoment(holding_Nm, units)}`,
    );
    return [
      here(
        owner,
        `${name}'s ${support.name} turns over: ${said.join("; ")}. ${cureOf(over.map(({ each }) => each))}`,
      ),
    ];
  });
}

/** What keeps it up although so much of it turns it over. */
function cureOf(over: readonly TippingCase[]): string {
  const asPlanned = over.find(({ off }) => Object.keys(off).length === 0);
  if (asPlanned !== undefined) {
    const weight = asPlanned.way === "load" ? "more counterweight" : "less counterweight";
    return `More bag, ${weight} or a shorter arm before it is let go.`;
  }
  const bagged = over.filter(({ off }) => !off.bag);
  const bare = bagged.some(({ off }) => off.counterweight);
  const unloaded = bagged.some(({ off }) => off.load);
  if (bare && unloaded)
    return "Whichever of load and counterweight is off, over it goes: somebody holds it, or a heavier bag.";
  if (bare) return "The counterweight goes on before the load and comes off after it.";
  if (unloaded)
    return "The counterweight goes on after the load and comes off before it; somebody holds the stand.";
  if (bagged.length > 0) return "The arm stays over its leg: the whole stand is turned, not the arm.";
  return "The bag goes on first and comes off last.";
}

function ceilings(plan: Plan, units: LengthUnits): Caution[] {
  return atCeiling(plan).map(({ air_m, name, owner }) =>
    here(owner, `${name} at the ceiling: ${ceilingWord(air_m, units)}; ${CEILING_CURE}.`),
  );
}

function sprinklers(plan: Plan, units: LengthUnits): Caution[] {
  const { room } = plan;
  if (room === null || room.sprinklers === null) return [];
  const plates_m = room.height - room.sprinklers.below;
  return highest(plan).flatMap(({ name, owner, top_m }) => {
    const under_m = plates_m - top_m;
    if (!isShort(under_m, UNDER_SPRINKLERS_M)) return [];
    const to = formatLength(plates_m - UNDER_SPRINKLERS_M, units);
    return [
      here(
        owner,
        `${name} under sprinklers: ${sprinklerWord(under_m, units)}. Lower it to ${to} at its top; nothing hot beneath a plate.`,
      ),
    ];
  });
}

function mains(plan: Plan): Caution[] {
  return feedsOf(plan).flatMap(({ circuit, heads, index }) => {
    if (circuit === null) return [];
    const held_A = heldAgainst_A(circuit);
    const loads = [
      ...(plan.shooting === null ? [] : [{ when: "on the mean", ...meanLoad(circuit, heads) }]),
      { when: "while all charge", ...chargingLoad(circuit, heads) },
    ];
    const worst = loads.find(({ watts }) => watts / circuit.volts > held_A);
    if (worst === undefined) return [];
    const amps = worst.watts / circuit.volts;
    const word = loadWord(amps, held_A, circuit.amps, worst.isWhole);
    return [
      here(
        `circuits[${index}]`,
        `${circuit.name} feeds ${listed(heads.map(({ name }) => name)) || "no head"}: ${ampWords(amps)} ${worst.when}, ${word}. Spread them over circuits, or flash slower.`,
      ),
    ];
  });
}
