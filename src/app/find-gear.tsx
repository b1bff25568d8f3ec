import { KITS } from "../gear/index.ts";
import type { GearPanel, Plan } from "../plan/index.ts";
import { lengthText } from "./entries.ts";
import { gearOf, MOST_GEAR } from "./find-brief.ts";
import { parseName } from "./find-entries.ts";
import { EntryField } from "./find-field.tsx";
import { GearLightParts } from "./find-gear-light.tsx";
import { usualLight, usualPanel } from "./find-kits.ts";
import { BriefLength, BriefNumber, type BriefPart } from "./find-part.tsx";
import { gearLine } from "./find-words.ts";

/** What is on hand: each light and panel in a line, its details behind it. */
export function GearList({ plan, ...part }: BriefPart & { readonly plan: Plan }) {
  const { put } = part;
  const gear = part.brief.gear ?? { lights: [], panels: [] };
  const { lights, panels } = gear;
  const names = (list: readonly { name: string }[]) => list.map(({ name }) => name);
  return (
    <fieldset class="group gear">
      <legend>on hand</legend>
      {lights.length + panels.length === 0 && <p class="quiet">nothing yet</p>}
      {lights.map((light, i) => (
        <details key={`light ${i}`} class="fold">
          <summary>
            <span class="sums">{light.name}</span> <span class="quiet">{gearLine(light)}</span>
          </summary>
          <div class="fold-body">
            <GearLightParts {...part} light={light} path={["gear", "lights", i]} />
            <TakeAway
              name={light.name}
              take={() => put(`without ${light.name}`, ["gear", "lights"], lights.toSpliced(i, 1))}
            />
          </div>
        </details>
      ))}
      {panels.map((panel, i) => (
        <details key={`panel ${i}`} class="fold">
          <summary>
            <span class="sums">{panel.name}</span>{" "}
            <span class="quiet">
              {lengthText(panel.width, part.units)} × {lengthText(panel.height, part.units)}
            </span>
          </summary>
          <div class="fold-body">
            <PanelParts {...part} panel={panel} index={i} />
            <TakeAway
              name={panel.name}
              take={() => put(`without ${panel.name}`, ["gear", "panels"], panels.toSpliced(i, 1))}
            />
          </div>
        </details>
      ))}
      <p class="adding">
        add
        <button
          type="button"
          disabled={lights.length >= MOST_GEAR}
          onClick={() => put("add a light", ["gear", "lights"], [...lights, usualLight(names(lights))])}
        >
          light
        </button>
        <button
          type="button"
          disabled={panels.length >= MOST_GEAR}
          onClick={() => put("add a panel", ["gear", "panels"], [...panels, usualPanel(names(panels))])}
        >
          panel
        </button>
      </p>
      <label class="kit">
        <span class="quiet">or take</span>
        <select
          aria-label="take as gear on hand"
          value=""
          onChange={(event) => {
            const chosen = event.currentTarget.value;
            event.currentTarget.value = "";
            const kit = KITS.find(({ name }) => name === chosen);
            put(`on hand: ${chosen}`, ["gear"], kit === undefined ? gearOf(plan) : kit.gear);
          }}
        >
          <option value="">…</option>
          <option value="what stands in the plan">what stands in the plan</option>
          {KITS.map(({ name }) => (
            <option key={name} value={name}>
              {name} (common practice, no source)
            </option>
          ))}
        </select>
      </label>
    </fieldset>
  );
}

function TakeAway({ name, take }: { name: string; take: () => void }) {
  return (
    <p>
      <button type="button" class="quiet" onClick={take}>
        take away<span class="visually-hidden"> {name}</span>
      </button>
    </p>
  );
}

function PanelParts({ panel, index, put, units }: BriefPart & { panel: GearPanel; index: number }) {
  const path = ["gear", "panels", index] as const;
  const common = { put, of: panel.name };
  return (
    <>
      <EntryField
        label="name"
        of={panel.name}
        text={panel.name}
        parse={parseName}
        commit={(name) => put(`${panel.name} is ${name}`, [...path, "name"], name)}
      />
      <BriefLength {...common} units={units} label="width" path={[...path, "width"]} value={panel.width} />
      <BriefLength {...common} units={units} label="tall" path={[...path, "height"]} value={panel.height} />
      {typeof panel.reflectance === "number" && (
        <BriefNumber
          {...common}
          label="reflects"
          path={[...path, "reflectance"]}
          value={panel.reflectance}
          unit=""
          digits={2}
          stepBy={0.05}
        />
      )}
    </>
  );
}
