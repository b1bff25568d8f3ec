/** A reading of one flash, as its fields: shared by what is worked out from one. */
import type { HandReading } from "../gear/index.ts";
import type { LengthUnits } from "../units/index.ts";
import { fNumberText, lengthText, parseFNumber, parseLengthText, parseNumber } from "./entries.ts";
import { ChoiceField } from "./fields.tsx";
import { tidy } from "./light-words.ts";
import { NumberField } from "./number-field.tsx";
import { capital } from "./wording.ts";

/** As guide numbers are stated and as meters are mostly set. */
export const ISO = 100;
/** Where a first reading is thought of, metres. */
export const AT_M = 2;

interface ReadingProps {
  readonly of: string;
  readonly units: LengthUnits;
  readonly reading: HandReading;
  readonly put: (reading: HandReading) => void;
}

/** How far the meter was, how it was set and which receptor it had. */
export function Held({ of, units, reading, put }: ReadingProps) {
  const { distance, iso, receptor } = reading;
  return (
    <>
      <NumberField
        label="meter held at"
        of={of}
        text={lengthText(distance, units)}
        parse={(text) => parseLengthText(text, units)}
        commit={(to) =>
          taken(
            to > 0,
            `A meter is held before the front: give one such as ${lengthText(AT_M, units)}.`,
            () => put({ ...reading, distance: to }),
          )
        }
      />
      <NumberField
        label="ISO"
        of={`reading of ${of}`}
        text={tidy(iso)}
        parse={(text) => parseNumber(text, /^\s*iso\s*/i, "100")}
        commit={(to) => taken(to >= 1, "ISO is 1 or more.", () => put({ ...reading, iso: to }))}
      />
      <ChoiceField
        label="receptor"
        of={of}
        value={receptor}
        choices={[
          ["flat", "flat"],
          ["dome", "dome"],
        ]}
        choose={(to) => put({ ...reading, receptor: to as "flat" | "dome" })}
      />
    </>
  );
}

export function Reads(props: { label: string; of: string; fNumber: number; put: (fNumber: number) => void }) {
  return (
    <NumberField
      label={props.label}
      of={props.of}
      text={fNumberText(props.fNumber)}
      parse={parseFNumber}
      commit={(to) => {
        props.put(to);
        return null;
      }}
    />
  );
}

/** Null where it was taken, as a field wants it. */
export function taken(isSound: boolean, why: string, take: () => void): string | null {
  if (isSound) take();
  return isSound ? null : why;
}

/** What it comes to, said before it is taken. */
export function Take({ says, take, isOff = false }: { says: string; take: () => void; isOff?: boolean }) {
  return (
    <p class="small" aria-live="polite">
      {capital(says)}.{" "}
      <button type="button" disabled={isOff} onClick={take}>
        take it
      </button>
    </p>
  );
}
