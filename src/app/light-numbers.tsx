import type { Light, Plan } from "../plan/index.ts";
import type { PlanReading } from "../reading/index.ts";
import type { Bench } from "./bench.ts";
import { BodyReachLine } from "./body-reach-line.ts";
import { AimFields, PlaceFields } from "./fields.tsx";
import { ColourFields } from "./light-colour.tsx";
import { BeamFields, FrontFields } from "./light-front.tsx";
import { HeadFields } from "./light-head.tsx";
import { PowerFields } from "./light-power.tsx";
import { ReadsFields } from "./light-reads-fields.tsx";
import { LightState } from "./light-state.tsx";
import type { PlanObject } from "./objects.ts";

interface LightNumbersProps {
  readonly bench: Bench;
  readonly object: PlanObject;
  readonly index: number;
  readonly light: Light;
  readonly plan: Plan;
  readonly reading: PlanReading | null;
}

/** What is used every minute on top, where it stands beneath, what it is made of behind folds. */
export function LightNumbers({ bench, object, index, light, plan, reading }: LightNumbersProps) {
  const part = { bench, index, light };
  return (
    <div class="light-numbers">
      <LightState {...part} />
      <PowerFields {...part} />
      <ReadsFields {...part} plan={plan} reading={reading} />
      <PlaceFields bench={bench} object={object} />
      <AimFields bench={bench} object={object} />
      <BodyReachLine bench={bench} owner={object.owner} />
      <div class="folds">
        <HeadFields {...part} />
        <FrontFields {...part} />
        <BeamFields {...part} />
        <ColourFields {...part} />
      </div>
      <p class="row">
        <button type="button" onClick={() => bench.view.update({ screen: "gear", gear: "check" })}>
          can it do that?<span class="visually-hidden"> {light.name}</span>
        </button>
        <button type="button" onClick={() => bench.view.update({ screen: "gear", gear: "weights" })}>
          weights<span class="visually-hidden"> on {light.name}</span>
        </button>
      </p>
    </div>
  );
}
