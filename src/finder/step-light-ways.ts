import { carriedRound, type Light, type Plan, writePower } from "../plan/index.ts";
import {
  lightAimedBy,
  lightNearerBy,
  lightOn,
  lightPowerBy,
  lightRoundBy,
  lightUpBy,
  powered,
} from "./step-light.ts";
import {
  degreesWords,
  either,
  FINEST_DEG,
  FINEST_M,
  FINEST_STOPS,
  type Ground,
  unsignedStops,
  type Way,
} from "./step-way.ts";
import { POWER_STOPS, ROUND_DEG, STEPS, stepWords } from "./steps.ts";
import { pictureSide, type Sitter } from "./turning.ts";

/** A light that is on: round (+ clockwise as seen from above), up, nearer, aimed aside (+ clockwise) and up, power. */
export function lightWays({ plan, sitter, units }: Ground, index: number): Way[] {
  const light = plan.lights[index];
  const { name } = light;
  const { back_m, up_m } = STEPS[units];
  const of = { of: name, ease: "stand" } as const;
  const length = { ...of, unit: "metres", finest: FINEST_M[units] } as const;
  const angle = { ...of, unit: "degrees", step: ROUND_DEG, finest: FINEST_DEG } as const;
  const kept = "at" in light.direction ? ", aim kept" : "";
  const way = (
    does: Way["does"],
    make: (amount: number, label: string) => ReturnType<Way["make"]>,
    more = "",
  ) => {
    const label = (amount: number) => `${name} ${does(amount)}`;
    return { does, label: (a: number) => label(a) + more, make: (a: number) => make(a, label(a)) };
  };
  const round = roundWords(plan, sitter, light);
  const aside = asideWords(plan, light);
  return [
    {
      ...angle,
      id: `lights[${index}] round`,
      reach: 60,
      ...way(
        (a) => `round ${degreesWords(a)} ${round(a)}`,
        (a, label) => lightRoundBy(plan, sitter, index, a, label),
      ),
    },
    {
      ...length,
      id: `lights[${index}] up`,
      step: up_m,
      reach: 7 * up_m,
      ...way(
        (a) => `${either(a, "up", "down")} ${stepWords(Math.abs(a), units)}`,
        (a, label) => lightUpBy(plan, index, a, label),
        kept,
      ),
    },
    {
      ...length,
      id: `lights[${index}] nearer`,
      step: back_m,
      reach: 8 * back_m,
      ...way(
        (a) => `${stepWords(Math.abs(a), units)} ${either(a, "nearer", "farther")}`,
        (a, label) => lightNearerBy(plan, sitter, index, a, label),
      ),
    },
    {
      ...angle,
      id: `lights[${index}] aimed aside`,
      reach: 40,
      ...way(
        (a) => `aimed ${degreesWords(a)} ${aside(a)}`,
        (a, label) => lightAimedBy(plan, index, { clockwise_deg: a, up_deg: 0 }, label),
      ),
    },
    {
      ...angle,
      id: `lights[${index}] aimed up`,
      reach: 40,
      ...way(
        (a) => `aimed ${degreesWords(a)} ${either(a, "up", "down")}`,
        (a, label) => lightAimedBy(plan, index, { clockwise_deg: 0, up_deg: a }, label),
      ),
    },
    powerWay(plan, index),
  ];
}

/** + is more; by the dial's own step where there is a dial. */
export function powerWay(plan: Plan, index: number): Way {
  const { name, output, dial } = plan.lights[index];
  const finest = "stopsDown" in output ? dial.step : FINEST_STOPS;
  const full_Ws = "wattSeconds" in output ? output.wattSeconds : null;
  const does = (a: number) => {
    const to = powered(output, a);
    const mark = "stopsDown" in to ? `, to ${writePower(to.stopsDown, dial, full_Ws)}` : "";
    return `power ${either(a, "up", "down")} ${unsignedStops(a)}${mark}`;
  };
  const label = (a: number) => `${name} ${does(a)}`;
  return {
    id: `lights[${index}] power`,
    of: name,
    ease: "power",
    unit: "stops",
    step: finest * Math.max(1, Math.round(POWER_STOPS / finest)),
    finest,
    reach: 6,
    does,
    label,
    make: (a) => lightPowerBy(plan, index, a, label(a)),
  };
}

/** A light that is off has one step. */
export function switchedOn(plan: Plan, index: number) {
  const label = `${plan.lights[index].name} switched on`;
  return { does: "switched on", label, made: lightOn(plan, index, label) };
}

/** In the picture where the two ways part there; else toward the lens or away from it. */
function roundWords(plan: Plan, sitter: Sitter, { position }: Light): (amount: number) => string {
  const sideOf = (clockwise_deg: number) => {
    const [x, y] = carriedRound(position, sitter.head, clockwise_deg);
    return pictureSide(plan, x - position[0], y - position[1]);
  };
  const [plus, minus] = [sideOf(ROUND_DEG), sideOf(-ROUND_DEG)];
  if (plus !== null && minus !== null && plus !== minus) return (a) => either(a, plus, minus);
  const far = (clockwise_deg: number) => {
    const [x, y] = carriedRound(position, sitter.head, clockwise_deg);
    return Math.hypot(x - plan.camera.position[0], y - plan.camera.position[1]);
  };
  const nearer = far(ROUND_DEG) < far(-ROUND_DEG);
  return (a) => either(a, nearer ? "to the lens" : "from the lens", nearer ? "from the lens" : "to the lens");
}

/** As the camera sees its beam swing; else as the light's own stand sees it. */
function asideWords(plan: Plan, { position, direction }: Light): (amount: number) => string {
  const bearing =
    "at" in direction
      ? Math.atan2(direction.at[0] - position[0], direction.at[1] - position[1])
      : (direction.bearing * Math.PI) / 180;
  // clockwise carries the tip of the aim along the right of where it points
  const side = pictureSide(plan, Math.cos(bearing), -Math.sin(bearing));
  if (side === null) return (a) => either(a, "clockwise", "anticlockwise");
  return (a) => either(a, side, side === "left" ? "right" : "left");
}
