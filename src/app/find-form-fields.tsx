import type { SpanWish } from "../plan/index.ts";
import { ChoiceField } from "./fields.tsx";
import { EntryField } from "./find-field.tsx";
import type { BriefPart } from "./find-part.tsx";
import { FREE, parseSpan, type SpanKind, spanText } from "./find-spans.ts";

/** Whose the fields are, for the ear. */
export const BRIEF = "brief";
const NONE = "";

interface ChoiceProps extends Pick<BriefPart, "put"> {
  readonly label: string;
  readonly field: "pattern" | "litSide" | "side" | "crop";
  readonly value: string | null;
  readonly choices: readonly (readonly [string, string])[];
}

/** One of a few, or free. */
export function WishChoice({ put, label, field, value, choices }: ChoiceProps) {
  return (
    <ChoiceField
      label={label}
      of={BRIEF}
      value={value ?? NONE}
      choices={[[NONE, FREE], ...choices]}
      choose={(chosen) => put(label, ["want", field], chosen === NONE ? null : chosen)}
    />
  );
}

interface RangeProps extends Pick<BriefPart, "brief" | "put"> {
  readonly label: string;
  readonly field: SpanWish;
  readonly kind: SpanKind;
  readonly note?: string;
}

/** From and to, or free. */
export function WishRange({ brief, put, label, field, kind, note }: RangeProps) {
  return (
    <EntryField
      label={label}
      of={BRIEF}
      text={spanText(brief.want[field], kind)}
      parse={(text) => parseSpan(text, kind)}
      commit={(span) => put(`${label} ${spanText(span, kind)}`, ["want", field], span)}
      {...(note === undefined ? {} : { note })}
    />
  );
}
