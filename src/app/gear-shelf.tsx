import { useLayoutEffect, useRef, useState } from "preact/hooks";
import {
  EMPTY_SHELF,
  type Kind,
  ONE_PIECE,
  type Piece,
  type PieceOf,
  type Shelf,
  STARTER_SHELF,
  withoutPiece,
} from "../gear/index.ts";
import type { LengthUnits } from "../units/index.ts";
import type { Bench } from "./bench.ts";
import { type ShelfDesk, shelfDeskOf } from "./gear-desk.ts";
import { useKeys } from "./gear-keys.ts";
import { PieceFields } from "./gear-pieces.tsx";
import { withNewPiece } from "./gear-usual.ts";
import { KIND_WORDS, pieceLine, weightText } from "./gear-words.ts";
import { useStore } from "./hooks.ts";

/** In three columns: what lights, what holds it, what sees it. */
const COLUMNS: readonly (readonly Kind[])[] = [
  ["heads", "modifiers"],
  ["panels", "stands", "papers"],
  ["lenses", "bodies", "others"],
];

/** Everything that somebody owns, each thing in a line with its numbers behind it. */
export function ShelfPart({ bench, shelf }: { readonly bench: Bench; readonly shelf: Shelf }) {
  const { units } = useStore(bench.view);
  const desk = shelfDeskOf(bench);
  const [opened, open] = useState<string | null>(null);
  return (
    <div class="gear-columns">
      {COLUMNS.map((kinds) => (
        <div key={kinds[0]}>
          {kinds.map((kind) => (
            <KindList key={kind} {...{ desk, shelf, kind, units, opened, open }} />
          ))}
        </div>
      ))}
    </div>
  );
}

interface ListProps<K extends Kind> {
  readonly desk: ShelfDesk;
  readonly shelf: Shelf;
  readonly kind: K;
  readonly units: LengthUnits;
  /** the thing that was just put there, whose name is typed next */
  readonly opened: string | null;
  readonly open: (id: string) => void;
}

function KindList<K extends Kind>({ desk, shelf, kind, units, opened, open }: ListProps<K>) {
  const pieces: readonly PieceOf<K>[] = shelf[kind];
  const keys = useKeys(pieces.map(({ name }) => name));
  const title = `kind-${kind}`;
  const [why, setWhy] = useState<string | null>(null);
  return (
    <section class="gear-kind" aria-labelledby={title}>
      <h2 id={title} tabIndex={-1}>
        {KIND_WORDS[kind]}
      </h2>
      {pieces.length === 0 && <p class="quiet">none</p>}
      <ul>
        {pieces.map((piece, i) => (
          <li key={keys[i]}>
            <PieceFold
              {...{ desk, shelf, kind, units, piece }}
              index={i}
              isNew={opened === `${kind} ${piece.name}`}
              takeAway={() => {
                desk.change(`without ${piece.name}`, withoutPiece(shelf, kind, i));
                document.getElementById(title)?.focus();
              }}
            />
          </li>
        ))}
      </ul>
      <p class="adding">
        <button
          type="button"
          onClick={() => {
            const refused = desk.change(`add ${oneMore(kind)}`, withNewPiece(shelf, kind));
            setWhy(refused);
            const added = desk.store.get().shelf?.[kind].at(-1);
            if (refused === null && added !== undefined) open(`${kind} ${added.name}`);
          }}
        >
          add {oneMore(kind)}
        </button>
      </p>
      {why !== null && (
        <p class="alert" role="alert">
          {why}
        </p>
      )}
    </section>
  );
}

interface FoldProps<K extends Kind> {
  readonly desk: ShelfDesk;
  readonly shelf: Shelf;
  readonly kind: K;
  readonly units: LengthUnits;
  readonly piece: PieceOf<K>;
  readonly index: number;
  readonly isNew: boolean;
  readonly takeAway: () => void;
}

function PieceFold<K extends Kind>(props: FoldProps<K>) {
  const { desk, shelf, kind, units, piece, index, isNew, takeAway } = props;
  const { count, isTypical, mass, name } = piece as Piece;
  const details = useRef<HTMLDetailsElement>(null);
  const [isOpen, setOpen] = useState(isNew);
  useLayoutEffect(() => {
    if (isNew) setOpen(true);
  }, [isNew]);
  // before the next key: its name is typed at once
  useLayoutEffect(() => {
    if (isNew && isOpen) details.current?.querySelector("input")?.select();
  }, [isNew, isOpen]);
  const line = pieceLine(kind, piece, units);
  return (
    <details
      ref={details}
      class="gear-piece"
      open={isOpen}
      onToggle={(event) => setOpen(event.currentTarget.open)}
    >
      <summary>
        <span class="sums">{name}</span>
        <span class="quiet gear-weight">{weightText(mass, count, units)}</span>
        <span class="quiet small line">
          {line}
          {isTypical && `${line === "" ? "" : "; "}typical`}
        </span>
      </summary>
      {isOpen && (
        <div class="fold-body">
          <PieceFields {...{ shelf, kind, units, piece }} put={desk.putInto} path={[kind, index]} />
          <p>
            <button type="button" class="quiet" onClick={takeAway}>
              take away<span class="visually-hidden"> {name}</span>
            </button>
          </p>
        </div>
      )}
    </details>
  );
}

const oneMore = (kind: Kind) => (kind === "others" ? "another thing" : `a ${ONE_PIECE[kind]}`);

/** Where it is kept, what is the matter with it, and where one begins. */
export function ShelfState({ bench }: { readonly bench: Bench }) {
  const desk = shelfDeskOf(bench);
  const { isKeeping, isStarter, notice, shelf } = useStore(desk.store);
  const isEmpty = shelf !== null && JSON.stringify(shelf) === JSON.stringify(EMPTY_SHELF);
  return (
    <div class="gear-state">
      {isStarter && (
        <p>
          This is a shelf to begin with: things as many studios have them, no maker's, every number typical
          and none measured. Put your own numbers in, take away what you do not have.{" "}
          <button type="button" onClick={() => desk.change("an empty shelf", EMPTY_SHELF)}>
            begin with nothing instead
          </button>
        </p>
      )}
      {isEmpty && (
        <p>
          Nothing is on the shelf.{" "}
          <button type="button" onClick={() => desk.change("the usual things", STARTER_SHELF)}>
            begin with typical things
          </button>
        </p>
      )}
      <p class="quiet small" role="status">
        {isKeeping
          ? "keeping it…"
          : bench.shelf === null
            ? "Kept in this browser, on this machine alone. Started with tapemark open, the program keeps it with your shoots."
            : "Kept by the program on this machine, for every plan, and in an archive of the whole library."}
      </p>
      {notice !== null && <p class="alert">{notice}</p>}
    </div>
  );
}

/** Why the shelf did not come or is not kept, on every part that needs it. */
export function ShelfTrouble({ bench }: { readonly bench: Bench }) {
  const desk = shelfDeskOf(bench);
  const { shelf, trouble } = useStore(desk.store);
  if (trouble === null) return null;
  return (
    <p class="alert" role="alert">
      {trouble}{" "}
      <button type="button" onClick={() => void (shelf === null ? desk.load() : desk.keep())}>
        try again
      </button>
    </p>
  );
}
