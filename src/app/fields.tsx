import { useId } from "preact/hooks";
import type { FieldPath } from "../plan/index.ts";
import { type LengthUnits, lengthsIn } from "../units/index.ts";
import { type Bench, makeEdit, putField } from "./bench.ts";
import { degreesText, lengthText, parseDegrees, parseLengthText, parseNumber } from "./entries.ts";
import { useStore } from "./hooks.ts";
import { NumberField } from "./number-field.tsx";
import { aimObject, moveObject, type PlanObject } from "./objects.ts";

interface FieldProps {
  readonly bench: Bench;
  readonly label: string;
  /** whose number it is, for the ear and for undo */
  readonly of: string;
  readonly path: FieldPath;
  readonly value: number;
}

export function LengthField({ bench, label, of, path, value }: FieldProps) {
  const { units } = useStore(bench.view);
  const put = (to: number) => inUnits(putField(bench, `${of} ${label}`, path, to), units);
  return (
    <NumberField
      label={label}
      of={of}
      text={lengthText(value, units)}
      parse={(text) => parseLengthText(text, units)}
      commit={put}
      step={(way, large) => put(rounded(value + way * (large ? 0.1 : 0.01), 3))}
    />
  );
}

/** Plans say why in metres. */
function inUnits(refusal: string | null, units: LengthUnits): string | null {
  return refusal === null ? null : lengthsIn(refusal, units);
}

export function DegreesField({ bench, label, of, path, value }: FieldProps) {
  const put = (to: number) => putField(bench, `${of} ${label}`, path, to);
  return (
    <NumberField
      label={label}
      of={of}
      text={degreesText(value)}
      parse={parseDegrees}
      commit={put}
      step={(way, large) => put(rounded(value + way * (large ? 10 : 1), 1))}
    />
  );
}

interface PlainFieldProps extends FieldProps {
  /** unit as shown behind the number; empty for shares */
  readonly unit: string;
  readonly digits: number;
  readonly stepBy: number;
}

export function PlainField({ bench, label, of, path, value, unit, digits, stepBy }: PlainFieldProps) {
  const put = (to: number) => putField(bench, `${of} ${label}`, path, to);
  const number = rounded(value, digits);
  const text = `${number < 0 ? "−" : ""}${Math.abs(number)}${unit === "" ? "" : ` ${unit}`}`;
  return (
    <NumberField
      label={label}
      of={of}
      text={text}
      parse={(typed) => parseNumber(typed, /[a-z.·%/×\s]+$/i, `${number}`)}
      commit={put}
      step={(way, large) => put(rounded(value + way * stepBy * (large ? 10 : 1), digits))}
    />
  );
}

interface ChoiceProps {
  readonly label: string;
  readonly of: string;
  readonly value: string;
  readonly choices: readonly (readonly [value: string, text: string])[];
  readonly choose: (value: string) => void;
}

export function ChoiceField({ label, of, value, choices, choose }: ChoiceProps) {
  const id = useId();
  return (
    <div class="number">
      <label for={id}>
        {label}
        <span class="visually-hidden">, {of}</span>
      </label>
      <select id={id} value={value} onChange={(event) => choose(event.currentTarget.value)}>
        {choices.map(([key, text]) => (
          <option key={key} value={key} selected={key === value}>
            {text}
          </option>
        ))}
      </select>
    </div>
  );
}

const PLACE = ["from left wall", "from near wall", "height"] as const;
const OPEN = ["across", "into the set", "height"] as const;

/** Where an object is, as a tape finds it again: from two walls and the floor. */
export function PlaceFields({ bench, object }: { bench: Bench; object: PlanObject }) {
  const { units } = useStore(bench.view);
  const { plan } = bench.session.get();
  const labels = plan.room === null ? OPEN : PLACE;
  const axes = object.lifts ? [0, 1, 2] : [0, 1];
  return (
    <fieldset class="group" disabled={object.pinned}>
      <legend class="visually-hidden">place of {object.name}</legend>
      {axes.map((axis) => {
        const value = object.position[axis] as number;
        const put = (to: number) => {
          const limit =
            plan.room === null ? null : [plan.room.width, plan.room.depth, plan.room.height][axis];
          if (limit !== null && limit !== undefined && (to < 0 || to > limit)) {
            return `${lengthText(to, units)} is outside the room: give 0 to ${lengthText(limit, units)}.`;
          }
          const position = [...object.position] as [number, number, number];
          position[axis] = to;
          return inUnits(makeEdit(bench, moveObject(plan, object, position)), units);
        };
        return (
          <NumberField
            key={labels[axis]}
            label={labels[axis] as string}
            of={object.name}
            text={lengthText(value, units)}
            parse={(text) => parseLengthText(text, units)}
            commit={put}
            step={(way, large) => put(rounded(value + way * (large ? 0.1 : 0.01), 3))}
          />
        );
      })}
    </fieldset>
  );
}

/** Where it points: bearing as on a map with the backdrop at the top, tilt above the horizontal. */
export function AimFields({ bench, object }: { bench: Bench; object: PlanObject }) {
  const { plan } = bench.session.get();
  const turn = (bearing: number) => makeEdit(bench, aimObject(plan, object, bearing, object.tilt_deg));
  const tip = (tilt: number) => {
    if (Math.abs(tilt) > 90) return `${degreesText(tilt)} is past upright: give −90° to 90°.`;
    return makeEdit(bench, aimObject(plan, object, object.bearing_deg, tilt));
  };
  const bearing = (object.bearing_deg + 360) % 360;
  return (
    <fieldset class="group" disabled={object.pinned}>
      <legend class="visually-hidden">aim of {object.name}</legend>
      <NumberField
        label={object.kind === "person" ? "facing" : "bearing"}
        of={object.name}
        text={degreesText(bearing)}
        parse={parseDegrees}
        commit={turn}
        step={(way, large) => turn(bearing + way * (large ? 10 : 1))}
      />
      {object.lifts && (
        <NumberField
          label="tilt"
          of={object.name}
          text={degreesText(object.tilt_deg)}
          parse={parseDegrees}
          commit={tip}
          step={(way, large) => tip(object.tilt_deg + way * (large ? 10 : 1))}
        />
      )}
    </fieldset>
  );
}

export function rounded(value: number, digits: number): number {
  return Number(value.toFixed(digits));
}
