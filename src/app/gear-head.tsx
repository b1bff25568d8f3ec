/** What is known of a head in the plan beside its power: times, watts, where it is plugged in. */
import type { FieldPath, Light, LightHead, Plan } from "../plan/index.ts";
import { ChoiceField } from "./fields.tsx";
import { EntryField } from "./find-field.tsx";
import type { PutBrief } from "./find-part.tsx";
import { parseTime, timeText } from "./gear-entries.ts";
import { MaybeNumber, StoredShare } from "./gear-fields.tsx";

interface HeadProps {
  readonly put: PutBrief;
  readonly light: Light;
  readonly index: number;
}

const FLASH_TOLD = [
  ["t0.5", "t0.5, over half"],
  ["t0.1", "t0.1, over a tenth"],
] as const;

interface FlashToldProps {
  readonly put: PutBrief;
  readonly name: string;
  /** of the head */
  readonly path: FieldPath;
  readonly measured: string;
}

/** How long a flash lasts is told over half of its peak or over a tenth. */
export function FlashTold({ put, name, path, measured }: FlashToldProps) {
  return (
    <ChoiceField
      label="told as"
      of={`${name}, how long its flash lasts`}
      value={measured}
      choices={FLASH_TOLD}
      choose={(to) => put(`${name} flash by ${to}`, [...path, "duration", "measured"], to)}
    />
  );
}

/** A number of a head that may be the first that is known of it. */
function known({ head }: Light, field: keyof LightHead): (value: unknown) => object {
  return (value) => ({ ...head, [field]: value });
}

/** How fast a head is ready again, and how long its flash lasts. */
export function HeadTimes({ put, light, index }: HeadProps) {
  const { head, name } = light;
  const path = ["lights", index, "head"] as const;
  const duration = head?.duration ?? null;
  return (
    <fieldset class="group">
      <legend class="visually-hidden">times of {name}</legend>
      <Recycle {...{ put, light, index }} />
      <EntryField
        label="flash lasts, at full"
        of={name}
        text={timeText(duration?.seconds ?? null)}
        parse={parseTime}
        commit={(seconds) =>
          put(
            `${name} flash`,
            path,
            known(light, "duration")(seconds === null ? null : { ...duration, seconds }),
          )
        }
      />
      {duration !== null && <FlashTold {...{ put, name, path }} measured={duration.measured} />}
    </fieldset>
  );
}

function Recycle({ put, light, index }: HeadProps) {
  return (
    <MaybeNumber
      label="ready again after"
      of={light.name}
      put={put}
      path={["lights", index, "head"]}
      value={light.head?.recycle ?? null}
      unit="s"
      made={known(light, "recycle")}
    />
  );
}

/** What a head draws and how fast it is ready again. */
export function HeadMains({ put, plan, light, index }: HeadProps & { readonly plan: Plan }) {
  const { head, name } = light;
  const path = ["lights", index, "head"] as const;
  const [first] = plan.circuits;
  return (
    <fieldset class="group">
      <legend class="visually-hidden">{name} on the mains</legend>
      <Recycle {...{ put, light, index }} />
      <MaybeNumber
        label="modelling lamp"
        of={name}
        {...{ put, path }}
        value={head?.lampWatts ?? 0}
        unit="W"
        made={(watts) => known(light, "lampWatts")(watts ?? 0)}
      />
      {head !== null && (
        <StoredShare {...{ put }} of={name} path={[...path, "charging"]} share={head.charging} />
      )}
      {first !== undefined && (
        <ChoiceField
          label="plugged into"
          of={name}
          value={head?.circuit ?? first.name}
          choices={plan.circuits.map((circuit) => [circuit.name, circuit.name] as const)}
          choose={(to) => put(`${name} on ${to}`, path, known(light, "circuit")(to))}
        />
      )}
    </fieldset>
  );
}
