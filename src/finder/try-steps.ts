/** Every small step from a plan as it stands, and what each changes. */
import type { Plan } from "../plan/index.ts";
import { type KeepGoing, type Memory, quickTrier, Stopped, type TryReading } from "../reading/index.ts";
import { tryWarnings } from "../reading/warnings.ts";
import type { LengthUnits } from "../units/index.ts";
import { mainLight } from "./main-light.ts";
import { shadeSide } from "./panel-move.ts";
import { cameraWays } from "./step-camera-ways.ts";
import { newly, pictureFaults } from "./step-in-picture.ts";
import { lightWays, switchedOn } from "./step-light-ways.ts";
import type { Made } from "./step-made.ts";
import { boardWay, panelWay } from "./step-panel-ways.ts";
import { personWays } from "./step-person-ways.ts";
import type { Ground, Way } from "./step-way.ts";
import { sitterIn } from "./turning.ts";
import type { TriedStep, TriedSteps } from "./types.ts";

/** Both ways of every way: camera, the sitter, each light, each panel. A step that cannot be made says why and is not
 * tried; one that is tried is read by the same means as the plan as it stands.
 * Errors  Stopped where `keepGoing` returns false; RangeError where there is no such person */
export function trySteps(
  plan: Plan,
  person: number,
  units: LengthUnits,
  memory: Memory,
  keepGoing: KeepGoing,
): TriedSteps {
  const sitter = sitterIn(plan, person);
  if (sitter === null) throw new RangeError("nobody is there to be read");
  const trier = quickTrier(plan, person, memory);
  const listed = stepsOf({ plan, sitter, units });
  const before = trier.read(plan);
  const warned = warnedOf(plan, person, before);
  const steps = listed.map(({ made, ...step }, i): TriedStep => {
    if (!keepGoing((i + 1) / (listed.length + 1))) throw new Stopped();
    if (!made.ok) return { ...step, edit: null, why: made.why, after: null, warns: [] };
    const after = trier.read(made.after);
    const warns = newly(warned, warnedOf(made.after, person, after));
    return { ...step, edit: made.edit, why: null, after, warns };
  });
  return { before, steps };
}

interface Listed extends Pick<TriedStep, "of" | "ease" | "does"> {
  readonly made: Made;
}

function stepsOf(ground: Ground): Listed[] {
  const { plan, sitter } = ground;
  const bothWays = ({ of, ease, does, make, step }: Way): Listed[] =>
    [step, -step].map((amount) => ({ of, ease, does: does(amount), made: make(amount) }));
  const lights = plan.lights.flatMap((light, i): Listed[] => {
    if (light.on) return lightWays(ground, i).flatMap(bothWays);
    const { does, made } = switchedOn(plan, i);
    return [{ of: light.name, ease: "power", does, made }];
  });
  return [
    ...cameraWays(ground).flatMap(bothWays),
    ...personWays(ground).flatMap(bothWays),
    ...lights,
    ...(plan.panels.length > 0
      ? plan.panels.flatMap((_, i) => bothWays(panelWay(ground, i)))
      : [boardIn(boardWay(ground, "white", shadeSide(mainLight(plan, sitter))))]),
  ];
}

function boardIn({ of, ease, does, make, step }: Way): Listed {
  return { of, ease, does: does(step), made: make(step) };
}

/** What is warned of, what spoils the picture, and whether the face is in it. */
function warnedOf(plan: Plan, person: number, reading: TryReading): string[] {
  return [
    ...tryWarnings(plan, reading).map(({ state }) => state),
    ...pictureFaults(plan, person),
    ...(reading.headroomStops === null ? ["no skin is in the picture"] : []),
  ];
}
