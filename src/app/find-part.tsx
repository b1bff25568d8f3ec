import type { Brief, FieldPath } from "../plan/index.ts";
import type { LengthUnits } from "../units/index.ts";
import { lengthText, parseLengthText, parseNumber } from "./entries.ts";
import { rounded } from "./fields.tsx";
import { NumberField } from "./number-field.tsx";

/** Puts one value of the brief, as one step; answers why it is refused. */
export type PutBrief = (label: string, path: FieldPath, value: unknown) => string | null;

/** What each part of the form is given. */
export interface BriefPart {
  readonly brief: Brief;
  readonly put: PutBrief;
  readonly units: LengthUnits;
}

interface OneNumber {
  readonly put: PutBrief;
  readonly label: string;
  /** whose number it is, for the ear and for undo */
  readonly of: string;
  readonly path: FieldPath;
  readonly value: number;
}

export function BriefLength({ put, label, of, path, value, units }: OneNumber & { units: LengthUnits }) {
  const take = (to: number) => put(`${of} ${label}`, path, to);
  return (
    <NumberField
      label={label}
      of={of}
      text={lengthText(value, units)}
      parse={(text) => parseLengthText(text, units)}
      commit={take}
      step={(way, large) => take(Math.max(0, rounded(value + way * (large ? 0.1 : 0.01), 3)))}
    />
  );
}

interface PlainProps extends OneNumber {
  readonly unit: string;
  readonly digits: number;
  readonly stepBy: number;
}

export function BriefNumber({ put, label, of, path, value, unit, digits, stepBy }: PlainProps) {
  const take = (to: number) => put(`${of} ${label}`, path, to);
  const number = rounded(value, digits);
  const ends = unit === "stops" && Math.abs(number) === 1 ? "stop" : unit;
  return (
    <NumberField
      label={label}
      of={of}
      text={`${number < 0 ? "−" : ""}${Math.abs(number)}${ends === "" ? "" : ` ${ends}`}`}
      parse={(text) => parseNumber(text, /[a-z.·%°/\s]+$/i, `${number}`)}
      commit={take}
      step={(way, large) => take(rounded(value + way * stepBy * (large ? 10 : 1), digits))}
    />
  );
}
