import type { FieldPath, GearLight } from "../plan/index.ts";
import { ChoiceField } from "./fields.tsx";
import { parseName } from "./find-entries.ts";
import { EntryField } from "./find-field.tsx";
import { FrontParts } from "./find-gear-front.tsx";
import { usualFront } from "./find-kits.ts";
import { BriefLength, BriefNumber, type BriefPart } from "./find-part.tsx";
import { MARK_WORDS } from "./light-words.ts";

interface GearLightProps extends BriefPart {
  readonly light: GearLight;
  readonly path: FieldPath;
}

const MOST_FRONTS = 12;

/** A head on hand: how strong, how far its dial goes, what can be put on it, what its stand reaches. */
export function GearLightParts({ light, path, put, units, brief }: GearLightProps) {
  const { dial, fronts, full, name, stand } = light;
  const common = { put, of: name };
  const taken = fronts.map((front) => front.name);
  return (
    <>
      <EntryField
        label="name"
        of={name}
        text={name}
        parse={parseName}
        commit={(to) => put(`${name} is ${to}`, [...path, "name"], to)}
      />
      {"wattSeconds" in full ? (
        <BriefNumber
          {...common}
          label="full power"
          path={[...path, "full", "wattSeconds"]}
          value={full.wattSeconds}
          unit="Ws"
          digits={1}
          stepBy={10}
        />
      ) : (
        <BriefNumber
          {...common}
          label="full power"
          path={[...path, "full", "lumenSeconds"]}
          value={full.lumenSeconds}
          unit="lm·s"
          digits={1}
          stepBy={100}
        />
      )}
      <BriefNumber
        {...common}
        label="dial reaches"
        path={[...path, "dial", "range"]}
        value={dial.range}
        unit="stops"
        digits={1}
        stepBy={1}
      />
      <ChoiceField
        label="marked"
        of={name}
        value={dial.marked}
        choices={Object.entries(MARK_WORDS)}
        choose={(marked) => put(`${name} marked`, [...path, "dial", "marked"], marked)}
      />
      {fronts.map((front, i) => (
        <FrontParts
          key={i}
          {...{ brief, put, units, front }}
          path={[...path, "fronts", i]}
          takeAway={
            fronts.length === 1
              ? null
              : () => put(`${name} without ${front.name}`, [...path, "fronts"], fronts.toSpliced(i, 1))
          }
        />
      ))}
      <p>
        <button
          type="button"
          disabled={fronts.length >= MOST_FRONTS}
          onClick={() => put(`${name} another front`, [...path, "fronts"], [...fronts, usualFront(taken)])}
        >
          add a front<span class="visually-hidden"> to {name}</span>
        </button>
      </p>
      <fieldset class="group">
        <legend class="quiet">stand</legend>
        <BriefLength
          {...common}
          units={units}
          label="lowest"
          path={[...path, "stand", "lowest"]}
          value={stand.lowest}
        />
        <BriefLength
          {...common}
          units={units}
          label="highest"
          path={[...path, "stand", "highest"]}
          value={stand.highest}
        />
        <BriefLength
          {...common}
          units={units}
          label="arm"
          path={[...path, "stand", "boom"]}
          value={stand.boom}
        />
      </fieldset>
    </>
  );
}
