/** A brief made ready to be searched: what stays, what there is to place, what is wanted. */
import type { Brief, Dial, GearFront, GearLight, Light, Panel, Plan, Want } from "../plan/index.ts";

/** Nothing to search by: what is missing, and the cure. */
export class BriefError extends Error {
  constructor(
    readonly problem: string,
    readonly cure: string,
  ) {
    super(`${problem}; ${cure}`);
    this.name = "BriefError";
  }
}

/** A light on hand: as a light of a plan at full power, once for each front. */
export interface Head {
  readonly name: string;
  readonly fronts: readonly Light[];
  readonly frontNames: readonly string[];
  readonly dial: Dial;
  readonly stand: GearLight["stand"];
}

export interface Search {
  /** what stays: lights and panels that are pinned, people, camera */
  readonly plan: Plan;
  readonly brief: Brief;
  readonly want: Want;
  readonly person: number;
  readonly heads: readonly Head[];
  readonly panels: readonly Panel[];
}

/** Errors  BriefError where there is no brief, nobody to light or nothing to light with */
export function searchOf(plan: Plan): Search {
  const { brief } = plan;
  if (brief === null)
    throw new BriefError("the plan has no brief", "say what is wanted: a brief with a pattern, a ratio, …");
  if (plan.people[brief.person] === undefined)
    throw new BriefError(
      `the brief is about person ${brief.person + 1}, and the plan has ${plan.people.length}`,
      "put somebody on the mark, or name another person",
    );
  const stays = {
    ...plan,
    lights: plan.lights.filter((light) => light.pinned),
    panels: plan.panels.filter((panel) => panel.pinned),
  };
  const taken = new Set([...stays.lights, ...stays.panels].map((thing) => thing.name));
  const free = (name: string) => freeName(name, taken);
  const heads =
    brief.gear === null
      ? plan.lights.filter((light) => !light.pinned).map((light) => headOf(light))
      : brief.gear.lights.map((light) => ({ ...headOfGear(light), name: free(light.name) }));
  const panels =
    brief.gear === null
      ? plan.panels.filter((panel) => !panel.pinned)
      : brief.gear.panels.map((panel) => ({ ...BOARD, ...panel, name: free(panel.name) }));
  if (heads.length === 0 && !stays.lights.some((light) => light.on))
    throw new BriefError("there is no light on hand", "add one to the brief's gear or to the plan");
  return { plan: stays, brief, want: brief.want, person: brief.person, heads, panels };
}

const ANYWHERE = { position: [0, 0, 1] as [number, number, number], direction: { bearing: 0, tilt: 0 } };
const BOARD = { ...ANYWHERE, roll: 0, transmittance: 0, support: null, pinned: false };

function freeName(name: string, taken: Set<string>): string {
  let own = name === "ambient" ? "ambient light" : name;
  for (let n = 2; taken.has(own); n++) own = `${name} ${n}`;
  taken.add(own);
  return own;
}

/** Ordinary stands; one that holds a light higher or lower as planned reaches there. */
const STAND = { lowest: 0.6, highest: 2.8, boom: 0 };

/** A light that stands in the plan. Where its output is told without a dial, nothing is known to be left above it. */
function headOf(light: Light): Head {
  const { output } = light;
  const z = light.position[2];
  return {
    name: light.name,
    fronts: [{ ...light, on: true, output: "stopsDown" in output ? { ...output, stopsDown: 0 } : output }],
    frontNames: [""],
    dial: light.dial,
    stand: {
      ...STAND,
      lowest: Math.min(STAND.lowest, z),
      highest: Math.max(STAND.highest, z),
    },
  };
}

function headOfGear(gear: GearLight): Head {
  return {
    name: gear.name,
    fronts: gear.fronts.map((front) => ({
      ...ANYWHERE,
      name: gear.name,
      on: true,
      roll: 0,
      face: front.face,
      beam: front.beam,
      output: through(gear, front),
      kelvin: gear.kelvin,
      gel: { rgb: [1, 1, 1] },
      dial: gear.dial,
      head: null,
      support: null,
      calibration: null,
      pinned: false,
    })),
    frontNames: gear.fronts.map((front) => front.name),
    dial: gear.dial,
    stand: gear.stand,
  };
}

/** At full power, less what the front takes. */
function through({ full }: GearLight, { stopsLost }: GearFront): Light["output"] {
  const left = 2 ** -stopsLost;
  if ("lumenSeconds" in full) return { lumenSeconds: full.lumenSeconds * left };
  return { ...full, efficiency: full.efficiency * left, stopsDown: 0 };
}
