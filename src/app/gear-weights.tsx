import { useMemo } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import { safetyRows } from "../safety/index.ts";
import { lengthsIn } from "../units/index.ts";
import { type Bench, putField } from "./bench.ts";
import type { PutBrief } from "./find-part.tsx";
import { Heading } from "./gear-check.tsx";
import { shelfDeskOf } from "./gear-desk.ts";
import { HeadMains } from "./gear-head.tsx";
import { CircuitsFields, ShootingFields, SprinklerFields } from "./gear-mains.tsx";
import { Cautions, Sums } from "./gear-sums.tsx";
import { SupportFields } from "./gear-support.tsx";
import { useStore } from "./hooks.ts";

interface WeightsProps {
  readonly bench: Bench;
  readonly plan: Plan;
  /** the light that somebody comes from */
  readonly sought: number | null;
}

/** What holds everything up and what feeds it, with the sums beside. */
export function Weights({ bench, plan, sought }: WeightsProps) {
  const stands = useStore(shelfDeskOf(bench).store).shelf?.stands ?? [];
  const { units } = useStore(bench.view);
  const put: PutBrief = (label, path, value) => {
    const why = putField(bench, label, path, value);
    return why === null ? null : lengthsIn(why, units);
  };
  const rows = useMemo(() => safetyRows(plan, units), [plan, units]);
  const sumsOf = (owner: string) => <Sums rows={rows.filter((row) => row.owner === owner)} />;
  const common = { bench, put, plan, units };
  return (
    <div class="gear-weights">
      <section class="gear-mains" aria-labelledby="mains-title">
        <h2 id="mains-title">Room and mains</h2>
        <ShootingFields {...{ put, plan }} />
        <CircuitsFields {...common} />
        <SprinklerFields {...common} />
      </section>
      <div class="gear-side">
        <Cautions plan={plan} units={units} />
        <div class="gear-room">
          <Sums rows={rows.filter(({ kind }) => kind !== "support")} isHeaded />
        </div>
        <section class="gear-stands" aria-labelledby="stands-title">
          <h2 id="stands-title">What stands in the plan</h2>
          {plan.lights.length + plan.panels.length === 0 && (
            <p class="quiet">No light and no panel is in the plan: add one there first.</p>
          )}
          {plan.lights.map((light, i) => (
            <article key={`light ${i}`} class="gear-stand" aria-label={`light ${light.name}`}>
              <Heading isSought={sought === i}>
                {light.name} <span class="quiet">light</span>
              </Heading>
              <div class="gear-numbers">
                <SupportFields
                  {...{ put, units }}
                  of={light.name}
                  path={["lights", i, "support"]}
                  support={light.support}
                  stands={stands}
                />
                <HeadMains {...{ put, plan, light }} index={i} />
              </div>
              {sumsOf(`lights[${i}]`)}
            </article>
          ))}
          {plan.panels.map((panel, i) => (
            <article key={`panel ${i}`} class="gear-stand" aria-label={`panel ${panel.name}`}>
              <h3>
                {panel.name} <span class="quiet">panel</span>
              </h3>
              <div class="gear-numbers">
                <SupportFields
                  {...{ put, units }}
                  of={panel.name}
                  path={["panels", i, "support"]}
                  support={panel.support}
                  stands={stands}
                />
              </div>
              {sumsOf(`panels[${i}]`)}
            </article>
          ))}
        </section>
      </div>
    </div>
  );
}
