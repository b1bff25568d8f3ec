/** Why something had to change, in a sentence: what is other, and what was done about it. */
import type { Plan, Room } from "../plan/index.ts";
import type { LengthUnits } from "../units/index.ts";
import { partOfChange } from "./changes.ts";
import { amountOfLength } from "./changes-words.ts";
import type { Drawn } from "./replan-fit.ts";
import type { PlanChange } from "./types.ts";

const SMALLER: Readonly<Record<Drawn["cause"], readonly [what: string, how: string]>> = {
  width: ["the room", "narrower"],
  depth: ["the room", "shallower"],
  height: ["the ceiling", "lower"],
};

/** What came nearer and for want of what: "the room is 1.20 m narrower: key 40 cm nearer, power 0.6 stop down". */
export function nearerReasons(
  before: Plan,
  after: Plan,
  drawn: readonly Drawn[],
  changes: readonly PlanChange[],
  units: LengthUnits,
): string[] {
  return drawn.map(({ cause, name }) => {
    const done = doneTo(name, changes);
    return `${causeText(cause, before.room, after.room, units)}: ${name} ${done === "" ? "brought nearer" : done}`;
  });
}

/** Lights that stand as they stood and are set otherwise. */
export function powerReasons(after: Plan, drawn: readonly Drawn[], changes: readonly PlanChange[]): string[] {
  return after.lights.flatMap(({ name }) => {
    const power = changes.find(({ what, which }) => what === name && which === "power");
    if (power === undefined || drawn.some((each) => each.name === name)) return [];
    return [`the room sends back other light: ${name}, power ${power.change}`];
  });
}

/** The whole set in another place of the room. */
export function shiftReasons(changes: readonly PlanChange[]): string[] {
  return changes
    .filter(({ what }) => what === "set")
    .map(({ change }) => `the walls are elsewhere: ${change}`);
}

function causeText(
  cause: Drawn["cause"],
  before: Room | null,
  after: Room | null,
  units: LengthUnits,
): string {
  if (before === null || after === null) return "there are walls now";
  const [what, how] = SMALLER[cause];
  const by = before[cause] - after[cause];
  return by > 0 ? `${what} is ${amountOfLength(by, units)} ${how}` : "it has less air there";
}

/** Distance first, then power: "40 cm nearer, power 0.6 stop down". */
function doneTo(name: string, changes: readonly PlanChange[]): string {
  const own = changes.filter(({ what }) => what === name);
  const place = own
    .filter((change) => partOfChange(change) === "direction" && change.which !== "aim")
    .slice(0, 1);
  const rest = own.filter(({ which }) => which === "power" || which === "lens" || which === "width");
  return [
    ...place.map(({ change }) => change),
    ...rest.map(({ change, which }) => `${which} ${change}`),
  ].join(", ");
}

/** "Season poster, planned again"; a plan's title has at most so many characters. */
export function titleAgain(title: string): string {
  const END = ", planned again";
  const MOST = 200;
  return title.endsWith(END) ? title : `${title.slice(0, MOST - END.length)}${END}`;
}
