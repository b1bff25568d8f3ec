/** Sums of watts for each circuit of a plan. */
import type { Circuit, Plan } from "../plan/index.ts";
import { CONTINUOUS, feedsOf, type HeadDraw, heldAgainst_A } from "./mains.ts";
import type { SafetyRow, SafetySum } from "./types.ts";
import { ampWords, listed, wattWords } from "./words.ts";

export function mainsRows(plan: Plan): SafetyRow[] {
  return feedsOf(plan).map(({ circuit, heads, index, off }) => ({
    kind: "mains" as const,
    owner: circuit === null ? null : `circuits[${index}]`,
    heading: circuit === null ? "Mains" : `Circuit ${circuit.name}`,
    about: aboutWords(circuit, heads),
    sums: circuitSums(plan, circuit, heads),
    asks: [...asksOf(plan, heads, off), ...(circuit === null ? [NO_CIRCUIT] : [])],
  }));
}

const NO_CIRCUIT =
  "no circuit is given: read volts and amps off its fuse or breaker, and see what else it feeds";

/** What a circuit feeds together; "at least" where some of it is not known. */
export interface CircuitLoad {
  readonly watts: number;
  readonly isWhole: boolean;
}

/** Over a series of frames: heads, modelling lamps and whatever else it feeds. */
export function meanLoad(circuit: Circuit | null, heads: readonly HeadDraw[]): CircuitLoad {
  return loadOf(circuit, heads, ({ mean_W }) => mean_W);
}

/** While every head charges at once, as after each frame. */
export function chargingLoad(circuit: Circuit | null, heads: readonly HeadDraw[]): CircuitLoad {
  return loadOf(circuit, heads, ({ charging_W }) => charging_W);
}

function loadOf(
  circuit: Circuit | null,
  heads: readonly HeadDraw[],
  watts: (head: HeadDraw) => number | null,
): CircuitLoad {
  const other = circuit?.otherWatts ?? 0;
  return {
    watts: heads.reduce((sum, head) => sum + head.lamp_W + (watts(head) ?? 0), other),
    isWhole: heads.every((head) => watts(head) !== null),
  };
}

function circuitSums(plan: Plan, circuit: Circuit | null, heads: readonly HeadDraw[]): SafetySum[] {
  const mean = { what: "on the mean, while it flashes", load: meanLoad(circuit, heads) };
  const charging = { what: "while all charge at once", load: chargingLoad(circuit, heads) };
  const known = plan.shooting === null ? [charging] : [mean, charging];
  // "at least 0 W" says nothing: what is missing is asked for
  const said = known.filter(({ load }) => load.isWhole || load.watts > 0);
  return said.map(({ what, load }) => {
    const least = load.isWhole ? "" : "at least ";
    if (circuit === null)
      return {
        what,
        left: `${least}${wattWords(load.watts)}`,
        right: "no circuit given",
        word: "no telling whether it holds",
        isOver: false,
      };
    const amps = load.watts / circuit.volts;
    const held_A = heldAgainst_A(circuit);
    return {
      what,
      left: `${least}${ampWords(amps)} (${wattWords(load.watts)})`,
      right: limitWords(circuit),
      word: loadWord(amps, held_A, circuit.amps, load.isWhole),
      isOver: amps > held_A,
    };
  });
}

function limitWords(circuit: Circuit): string {
  const held_A = heldAgainst_A(circuit);
  const held = `${ampWords(held_A)} (${wattWords(held_A * circuit.volts)})`;
  if (circuit.feeds === "short") return held;
  return `${held}, ${100 / CONTINUOUS} % of ${ampWords(circuit.amps)}`;
}

/** By word, and never a word that lets it pass. */
export function loadWord(amps: number, held_A: number, marked_A: number, isWhole: boolean): string {
  if (amps > marked_A) return `${ampWords(amps - marked_A)} over what it is marked with`;
  if (amps > held_A) return `${ampWords(amps - held_A)} over what is asked of it for hours`;
  return `${isWhole ? "" : "at most "}${ampWords(held_A - amps)} left`;
}

function aboutWords(circuit: Circuit | null, heads: readonly HeadDraw[]): string {
  const lamps_W = heads.reduce((sum, { lamp_W }) => sum + lamp_W, 0);
  const parts = [
    heads.length === 0 ? "no head" : listed(heads.map(({ name }) => name)),
    ...(lamps_W > 0 ? [`modelling lamps ${wattWords(lamps_W)}`] : []),
    ...((circuit?.otherWatts ?? 0) > 0 ? [`${wattWords(circuit?.otherWatts ?? 0)} beside`] : []),
  ];
  const at = circuit === null ? "" : ` At ${circuit.volts} V, power factor 1.`;
  return `Feeds ${parts.join(", ")}.${at} The inrush when a head is switched on is higher.`;
}

function asksOf(plan: Plan, heads: readonly HeadDraw[], off: readonly string[]): string[] {
  const lacking = (what: HeadDraw["unknown"][number]) =>
    heads.filter(({ unknown }) => unknown.includes(what)).map(({ name }) => name);
  const said = (what: HeadDraw["unknown"][number], words: string) => {
    const names = lacking(what);
    return names.length === 0 ? [] : [`${words}: ${listed(names)}`];
  };
  return [
    ...said("watt-seconds", "watt-seconds not given, read them off the head"),
    ...said("recycle time", "recycle time at full power not given"),
    ...said("lamp", "modelling lamp off or not given"),
    ...(off.length > 0 ? [`off in this plan and not counted: ${listed(off)}`] : []),
    ...(plan.shooting === null && heads.length > 0 ? ["how often it flashes is not given"] : []),
  ];
}
