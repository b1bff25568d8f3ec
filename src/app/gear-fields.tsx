/** Numbers and ticks of gear, whatever they are put into: the plan or the shelf. */
import type { FieldPath } from "../plan/index.ts";
import { formatWeight, KG_PER_POUND, type LengthUnits } from "../units/index.ts";
import { rounded } from "./fields.tsx";
import { EntryField } from "./find-field.tsx";
import { BriefNumber, type PutBrief } from "./find-part.tsx";
import { parseMaybe, parseMaybeWeight, parseWeightText, UNKNOWN } from "./gear-entries.ts";
import { tidy } from "./light-words.ts";
import { NumberField } from "./number-field.tsx";

interface MaybeProps {
  readonly put: PutBrief;
  readonly label: string;
  /** whose number it is, for the ear and for undo */
  readonly of: string;
  readonly path: FieldPath;
  readonly value: number | null;
  readonly unit: string;
  /** what a number stands for where it is put into a group that is not there yet */
  readonly made?: (value: number | null) => unknown;
  readonly note?: string;
}

/** A number that may not be known: emptied, it is not. */
export function MaybeNumber({ put, label, of, path, value, unit, made, note }: MaybeProps) {
  return (
    <EntryField
      label={label}
      of={of}
      text={value === null ? UNKNOWN : `${tidy(value)} ${unit}`}
      parse={(text) => parseMaybe(text, unit)}
      commit={(to) => put(`${of} ${label}`, path, made === undefined ? to : made(to))}
      {...(note === undefined ? {} : { note })}
    />
  );
}

interface WeightProps extends Omit<MaybeProps, "unit"> {
  readonly units: LengthUnits;
}

/** A weight that may not be known. */
export function MaybeWeight({ put, label, of, path, value, units, made, note }: WeightProps) {
  return (
    <EntryField
      label={label}
      of={of}
      text={value === null ? UNKNOWN : formatWeight(value, units)}
      parse={(text) => parseMaybeWeight(text, units)}
      commit={(to) => put(`${of} ${label}`, path, made === undefined ? to : made(to))}
      {...(note === undefined ? {} : { note })}
    />
  );
}

type KnownProps = Omit<WeightProps, "made" | "note" | "value"> & { readonly value: number };

export function Weight({ put, label, of, path, value, units }: KnownProps) {
  const take = (kg: number) => put(`${of} ${label}`, path, kg);
  const each_kg = units === "metric" ? 1 : KG_PER_POUND;
  const step = (by: number) => rounded(Math.max(0, rounded(value / each_kg + by, 2)) * each_kg, 6);
  return (
    <NumberField
      label={label}
      of={of}
      text={formatWeight(value, units)}
      parse={(text) => parseWeightText(text, units)}
      commit={take}
      step={(way, large) => take(step(way * (large ? 1 : 0.1)))}
    />
  );
}

interface StoredProps {
  readonly put: PutBrief;
  readonly of: string;
  readonly path: FieldPath;
  /** of what is drawn from the mains, 0.1 to 1 */
  readonly share: number;
}

/** What a head stores of what it draws; refused in per cent, as it is typed. */
export function StoredShare({ put, of, path, share }: StoredProps) {
  return (
    <BriefNumber
      label="stored of what it draws"
      of={of}
      put={(label, to, percent) =>
        Number(percent) >= 10 && Number(percent) <= 100
          ? put(label, to, Number(percent) / 100)
          : `It must be from 10 % to 100 %; it is ${percent} %.`
      }
      path={path}
      value={100 * share}
      unit="%"
      digits={1}
      stepBy={5}
    />
  );
}

interface TickProps {
  readonly text: string;
  readonly of: string;
  readonly on: boolean;
  readonly put: (on: boolean) => void;
}

export function Tick({ text, of, on, put }: TickProps) {
  return (
    <label class="tick">
      <input type="checkbox" checked={on} onChange={(event) => put(event.currentTarget.checked)} />
      <span>
        {text}
        <span class="visually-hidden">, {of}</span>
      </span>
    </label>
  );
}
