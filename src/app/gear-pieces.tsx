/** The fields of a thing on the shelf, whatever it is. */
import type { ComponentChildren } from "preact";
import type { Kind, Piece, PieceOf, Shelf } from "../gear/index.ts";
import type { FieldPath } from "../plan/index.ts";
import type { LengthUnits } from "../units/index.ts";
import { parseName } from "./find-entries.ts";
import { EntryField } from "./find-field.tsx";
import { BriefNumber, type PutBrief } from "./find-part.tsx";
import { MaybeWeight, Tick } from "./gear-fields.tsx";
import { BodyFields, LensFields, PanelFields, PaperFields, ShelfStandFields } from "./gear-kinds.tsx";
import { HeadParts, ModifierParts } from "./gear-lights.tsx";

/** What the fields of each kind are given. */
export interface PieceProps<K extends Kind> {
  readonly shelf: Shelf;
  readonly put: PutBrief;
  readonly units: LengthUnits;
  readonly piece: PieceOf<K>;
  /** where it stands on the shelf */
  readonly path: FieldPath;
}

interface AnyPiece<K extends Kind> extends PieceProps<K> {
  readonly kind: K;
}

/** Name, how many, weight; then what its kind has; then what else is to be said of it. */
export function PieceFields<K extends Kind>(props: AnyPiece<K>) {
  const { put, units, piece, path } = props;
  const { count, isTypical, mass, name, notes } = piece as Piece;
  return (
    <>
      <EntryField
        label="name"
        of={name}
        text={name}
        parse={parseName}
        commit={(to) => put(`${name} is ${to}`, [...path, "name"], to)}
      />
      <BriefNumber
        {...{ put }}
        label="how many"
        of={name}
        path={[...path, "count"]}
        value={count}
        unit=""
        digits={0}
        stepBy={1}
      />
      <MaybeWeight
        {...{ put, units }}
        label={count === 1 ? "weighs" : "each weighs"}
        of={name}
        path={[...path, "mass"]}
        value={mass}
      />
      <KindFields {...props} />
      <EntryField
        label="notes"
        of={name}
        text={notes}
        parse={(typed) => ({ ok: true, value: typed.replace(/\s+/g, " ").trim() })}
        commit={(to) => put(`${name} notes`, [...path, "notes"], to)}
      />
      <Tick
        text="typical of its kind, not its own numbers"
        of={name}
        on={isTypical}
        put={(on) => put(`${name} ${on ? "typical" : "its own numbers"}`, [...path, "isTypical"], on)}
      />
    </>
  );
}

type Fields = { readonly [K in Kind]: (props: PieceProps<K>) => ComponentChildren };

const FIELDS: Fields = {
  heads: HeadParts,
  modifiers: ModifierParts,
  panels: PanelFields,
  stands: ShelfStandFields,
  papers: PaperFields,
  lenses: LensFields,
  bodies: BodyFields,
  others: () => null,
};

function KindFields<K extends Kind>({ kind, ...props }: AnyPiece<K>) {
  // none of them holds anything in mind
  return <>{FIELDS[kind](props)}</>;
}
