import { formatFStops } from "../units/index.ts";
import {
  cameraNearerBy,
  cameraRoundBy,
  cameraUpBy,
  clockwiseIsLeft,
  lensOpenBy,
  openedBy,
} from "./step-camera.ts";
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
import { LENS_STOPS, ROUND_DEG, STEPS, stepWords } from "./steps.ts";

/** The camera round (+ to picture left), up, nearer, and its lens (+ open). */
export function cameraWays({ plan, sitter, units }: Ground): Way[] {
  const { back_m, up_m } = STEPS[units];
  const leftward = clockwiseIsLeft(plan, sitter, ROUND_DEG) ? 1 : -1;
  const common = { of: "camera", ease: "camera" } as const;
  const length = { ...common, unit: "metres", finest: FINEST_M[units] } as const;
  const way = (does: Way["does"], make: (amount: number, label: string) => ReturnType<Way["make"]>) => {
    const label = (amount: number) => `camera ${does(amount)}`;
    return { does, label, make: (amount: number) => make(amount, label(amount)) };
  };
  const lens = (a: number) =>
    `lens ${either(a, "open", "closed")} ${unsignedStops(a)}, to ${formatFStops(openedBy(plan.camera, a))}`;
  return [
    {
      ...common,
      id: "camera round",
      unit: "degrees",
      step: ROUND_DEG,
      finest: FINEST_DEG,
      reach: 40,
      ...way(
        (a) => `round ${degreesWords(a)} ${either(a, "left", "right")}`,
        (a, label) => cameraRoundBy(plan, sitter, a * leftward, label),
      ),
    },
    {
      ...length,
      id: "camera up",
      step: up_m,
      reach: 4 * up_m,
      ...way(
        (a) => `${either(a, "up", "down")} ${stepWords(Math.abs(a), units)}`,
        (a, label) => cameraUpBy(plan, sitter, a, label),
      ),
    },
    {
      ...length,
      id: "camera nearer",
      step: back_m,
      reach: 8 * back_m,
      ...way(
        (a) => `${stepWords(Math.abs(a), units)} ${either(a, "nearer", "farther")}`,
        (a, label) => cameraNearerBy(plan, sitter, a, label),
      ),
    },
    {
      ...common,
      id: "camera lens",
      unit: "stops",
      step: LENS_STOPS,
      finest: FINEST_STOPS,
      reach: 4,
      does: lens,
      label: lens,
      make: (a) => lensOpenBy(plan, a, lens(a)),
    },
  ];
}
