import type { ComponentChildren } from "preact";
import { type ShelfStand, standing } from "../gear/index.ts";
import type { FieldPath, Support } from "../plan/index.ts";
import type { LengthUnits } from "../units/index.ts";
import { ChoiceField } from "./fields.tsx";
import { parseName } from "./find-entries.ts";
import { EntryField } from "./find-field.tsx";
import { BriefLength, type PutBrief } from "./find-part.tsx";
import { bearingText, parseBearing } from "./gear-entries.ts";
import { MaybeWeight, Tick, Weight } from "./gear-fields.tsx";

interface SupportProps {
  readonly put: PutBrief;
  readonly units: LengthUnits;
  /** the light or panel that it carries */
  readonly of: string;
  readonly path: FieldPath;
  readonly support: Support | null;
  /** the shelf's, any of which may stand there */
  readonly stands: readonly ShelfStand[];
}

/** What holds a light or panel up. It begins with what it carries: without that no sum can be made. */
export function SupportFields({ put, units, of, path, support, stands }: SupportProps) {
  return (
    <fieldset class="group">
      <legend class="visually-hidden">what holds up {of}</legend>
      <MaybeWeight
        label="it carries"
        {...{ put, units, of, path }}
        value={support === null ? null : support.load}
        made={(load) => (load === null ? null : { ...support, load })}
        {...(support === null
          ? { note: "weigh what hangs on it, head and front or panel: no sum is made until then" }
          : {})}
      />
      {support !== null && <Stand {...{ put, units, of, path, support, stands }} />}
    </fieldset>
  );
}

/** Of no stand on the shelf. */
const OWN = "";
const LEGS = [3, 4, 5, 6].map((n) => [String(n), String(n)] as const);

type StandProps = SupportProps & { readonly support: Support };

function Stand({ put, units, of, path, support, stands }: StandProps) {
  const { arm, bag, footRadius, isWheeled, legs, legUnderLoad, mass, name } = support;
  const weight = (label: string, field: "bag" | "mass", value: number) => (
    <Weight {...{ put, units, of, label, value }} path={[...path, field]} />
  );
  return (
    <>
      {stands.length > 0 && (
        <ChoiceField
          label="stand"
          of={of}
          value={stands.find((stand) => isStanding(stand, support))?.name ?? OWN}
          choices={[[OWN, "its own"], ...stands.map((stand) => [stand.name, stand.name] as const)]}
          choose={(chosen) => {
            const stand = stands.find((each) => each.name === chosen);
            if (stand !== undefined) put(`${of} on ${chosen}`, path, standing(stand, support, support.load));
          }}
        />
      )}
      <EntryField
        label="called"
        of={`what holds up ${of}`}
        text={name}
        parse={parseName}
        commit={(to) => put(`${of} on ${to}`, [...path, "name"], to)}
      />
      <FootFields {...{ put, units, of, path, legs, footRadius }} />
      {weight("stand weighs", "mass", mass)}
      {weight("bag on the legs", "bag", bag)}
      <Tick
        text="a leg points under the load"
        of={of}
        on={legUnderLoad}
        put={(on) =>
          put(`${of} ${on ? "with" : "without"} a leg under the load`, [...path, "legUnderLoad"], on)
        }
      />
      <Tick
        text="on wheels"
        of={of}
        on={isWheeled}
        put={(on) => put(`${of} ${on ? "on" : "off"} wheels`, [...path, "isWheeled"], on)}
      />
      <ArmFields {...{ put, units, of, arm }} path={[...path, "arm"]}>
        {arm !== null && (
          <EntryField
            label="points, bearing"
            of={`the arm of ${of}`}
            text={bearingText(arm.bearing)}
            parse={parseBearing}
            commit={(to) => put(`${of} arm's bearing`, [...path, "arm", "bearing"], to)}
            {...(arm.bearing === null
              ? { note: "0° into the set, 90° to the right; every way is taken" }
              : {})}
          />
        )}
      </ArmFields>
    </>
  );
}

/** Both in the order of the plan's format. */
function isStanding(stand: ShelfStand, support: Support): boolean {
  return JSON.stringify(standing(stand, support, support.load)) === JSON.stringify(support);
}

interface FootProps extends Omit<SupportProps, "stands" | "support"> {
  readonly legs: number;
  readonly footRadius: number;
}

/** What a stand stands on. */
export function FootFields({ put, units, of, path, legs, footRadius }: FootProps) {
  return (
    <>
      <ChoiceField
        label="legs"
        of={of}
        value={String(legs)}
        choices={LEGS}
        choose={(chosen) => put(`${of} on ${chosen} legs`, [...path, "legs"], Number(chosen))}
      />
      <BriefLength
        {...{ put, of, units }}
        label="column to leg tip"
        path={[...path, "footRadius"]}
        value={footRadius}
      />
    </>
  );
}

/** To begin with: it is measured next (common practice, no source). */
const FIRST_REACH_M = 1;

interface ArmProps extends Omit<SupportProps, "stands" | "support"> {
  readonly arm: Omit<NonNullable<Support["arm"]>, "bearing"> | null;
  /** where it points: in a plan, not on the shelf */
  readonly children?: ComponentChildren;
}

/** The arm on it, if there is one. */
export function ArmFields({ put, units, of, path, arm, children }: ArmProps) {
  const length = (label: string, field: "reach" | "counterReach", value: number) => (
    <BriefLength {...{ put, of, units, label, value }} path={[...path, field]} />
  );
  const weight = (label: string, field: "mass" | "counterweight", value: number) => (
    <Weight {...{ put, units, of, label, value }} path={[...path, field]} />
  );
  return (
    <>
      <Tick
        text="an arm holds it out"
        of={of}
        on={arm !== null}
        put={(on) =>
          put(`${of} ${on ? "on an arm" : "off the arm"}`, path, on ? { reach: FIRST_REACH_M } : null)
        }
      />
      {arm !== null && (
        <fieldset class="group gear-within">
          <legend class="visually-hidden">the arm of {of}</legend>
          {length("column to load", "reach", arm.reach)}
          {weight("arm weighs", "mass", arm.mass)}
          {length("column to counterweight", "counterReach", arm.counterReach)}
          {weight("counterweight", "counterweight", arm.counterweight)}
          {children}
        </fieldset>
      )}
    </>
  );
}
