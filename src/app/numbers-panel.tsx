import type { Plan } from "../plan/index.ts";
import type { PlanReading } from "../reading/index.ts";
import type { Bench } from "./bench.ts";
import { PlaceFields } from "./fields.tsx";
import { HeldHead } from "./held-head.tsx";
import { useStore } from "./hooks.ts";
import { LightNumbers } from "./light-numbers.tsx";
import { NudgePad } from "./nudge-pad.tsx";
import { heldObjects, type PlanObject } from "./objects.ts";
import { CameraNumbers, MeterNumbers, PanelNumbers, PersonNumbers } from "./other-numbers.tsx";
import { BackdropNumbers, RoomNumbers } from "./set-numbers.tsx";
import { ThingsList } from "./things-list.tsx";

interface NumbersPanelProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly reading: PlanReading | null;
}

/** The numbers of what is taken hold of; of the room when nothing is. Beneath, everything that is in the plan. */
export function NumbersPanel({ bench, plan, reading }: NumbersPanelProps) {
  const view = useStore(bench.view);
  const held = heldObjects(plan, view);
  const [object] = held;
  return (
    <>
      <section class="numbers" aria-labelledby="numbers-title">
        <HeldHead bench={bench} plan={plan} held={held} />
        {object === undefined && <RoomNumbers bench={bench} plan={plan} />}
        {object !== undefined && held.length === 1 && (
          <ObjectNumbers key={object.owner} bench={bench} plan={plan} reading={reading} object={object} />
        )}
        <ThingsList bench={bench} plan={plan} />
        {plan.lights.length === 0 && plan.people.length === 0 && (
          <p class="quiet">
            or begin with another plan:{" "}
            <button type="button" onClick={() => bench.view.update({ screen: "start" })}>
              all plans
            </button>
          </p>
        )}
      </section>
      <NudgePad bench={bench} held={held} />
    </>
  );
}

function ObjectNumbers(props: NumbersPanelProps & { object: PlanObject }) {
  const { bench, plan, reading, object } = props;
  const index = object.path[1] as number;
  const common = { bench, object };
  switch (object.kind) {
    case "light": {
      const light = plan.lights[index];
      return light === undefined ? null : (
        <LightNumbers {...common} index={index} light={light} plan={plan} reading={reading} />
      );
    }
    case "person": {
      const person = plan.people[index];
      return person === undefined ? null : <PersonNumbers {...common} thing={person} />;
    }
    case "panel": {
      const panel = plan.panels[index];
      return panel === undefined ? null : <PanelNumbers {...common} thing={panel} />;
    }
    case "meter": {
      const meter = plan.meters[index];
      return meter === undefined ? null : <MeterNumbers {...common} thing={meter} />;
    }
    case "mark":
      return <PlaceFields bench={bench} object={object} />;
    case "camera":
      return <CameraNumbers {...common} thing={plan.camera} />;
    case "backdrop":
      return plan.backdrop === null ? null : <BackdropNumbers {...common} thing={plan.backdrop} />;
  }
}
