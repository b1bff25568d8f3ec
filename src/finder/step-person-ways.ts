import { bodyTurnedBy, headBy, steppedBy } from "./step-person.ts";
import { degreesWords, either, FINEST_DEG, FINEST_M, type Ground, type Way } from "./step-way.ts";
import { CHIN_DEG, HEAD_DEG, STEPS, stepWords } from "./steps.ts";

/** The sitter forward, aside (+ to the own left) and turned; the head turned, tipped (+ chin up) and tilted. */
export function personWays({ plan, sitter, units }: Ground): Way[] {
  const { index, name } = sitter;
  const { back_m } = STEPS[units];
  const common = { of: name, ease: "sitter" } as const;
  const length = {
    ...common,
    unit: "metres",
    step: back_m,
    finest: FINEST_M[units],
    reach: 4 * back_m,
  } as const;
  const angle = { ...common, unit: "degrees", finest: FINEST_DEG } as const;
  const toSide = (a: number) => `${degreesWords(a)} to own ${either(a, "left", "right")}`;
  const ahead = (a: number) => `${either(a, "forward", "back")} ${stepWords(Math.abs(a), units)}`;
  const aside = (a: number) => `${stepWords(Math.abs(a), units)} to own ${either(a, "left", "right")}`;
  const chin = (a: number) => `chin ${either(a, "up", "down")} ${degreesWords(a)}`;
  const stepped = (by: { ahead_m: number; left_m: number }, label: string) =>
    steppedBy(plan, index, by, label);
  const way = (
    does: Way["does"],
    label: Way["label"],
    make: (amount: number, label: string) => ReturnType<Way["make"]>,
  ) => ({ does, label, make: (amount: number) => make(amount, label(amount)) });
  return [
    {
      ...length,
      id: "person ahead",
      ...way(
        ahead,
        (a) => `${name} ${ahead(a)}`,
        (a, label) => stepped({ ahead_m: a, left_m: 0 }, label),
      ),
    },
    {
      ...length,
      id: "person aside",
      ...way(
        aside,
        (a) => `${name} ${aside(a)}`,
        (a, label) => stepped({ ahead_m: 0, left_m: a }, label),
      ),
    },
    {
      ...angle,
      id: "person turned",
      step: HEAD_DEG,
      reach: 40,
      ...way(
        (a) => `body turns ${toSide(a)}`,
        (a) => `${name}'s body turned ${toSide(a)}`,
        (a, label) => bodyTurnedBy(plan, index, a, label),
      ),
    },
    {
      ...angle,
      id: "head turned",
      step: HEAD_DEG,
      reach: 40,
      ...way(
        (a) => `head turns ${toSide(a)}`,
        (a) => `${name}'s head turned ${toSide(a)}`,
        (a, label) => headBy(plan, index, "turn", a, label),
      ),
    },
    {
      ...angle,
      id: "head tipped",
      step: CHIN_DEG,
      reach: 20,
      ...way(
        chin,
        (a) => `${name}'s ${chin(a)}`,
        (a, label) => headBy(plan, index, "tip", a, label),
      ),
    },
    {
      ...angle,
      id: "head tilted",
      step: CHIN_DEG,
      reach: 20,
      ...way(
        (a) => `head tilts ${toSide(a)}`,
        (a) => `${name}'s head tilted ${toSide(a)}`,
        (a, label) => headBy(plan, index, "tilt", a, label),
      ),
    },
  ];
}
