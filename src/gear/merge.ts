/** Two who changed one shelf at once, made one; and what of the other's work that did not keep. */
import { isSameData } from "../plan/index.ts";
import {
  KINDS,
  type Kind,
  MOST_PIECES,
  type Piece,
  SHELF_FORMAT,
  SHELF_VERSION,
  type Shelf,
  shelfSchema,
} from "./schema.ts";

type Named = { readonly name: string };
type Fields = Readonly<Record<string, unknown>>;

/** Thing by thing, by its name, and of each thing field by field: what I changed since the base is mine, and the rest is as it
 * lies there. A thing that would not be sound so is mine whole. Where the base is not known any more nothing is taken away, and
 * mine stands where both have a thing. `lostOf` says what of theirs that did not keep.
 * Errors  none thrown: both are sound shelves */
export function mergeShelves(base: Shelf | undefined, there: Shelf, mine: Shelf): Shelf {
  const merged: Record<string, unknown> = { ...there };
  for (const kind of KINDS) merged[kind] = mergePieces(kind, base?.[kind], there[kind], mine[kind]);
  return shelfSchema.parse(merged);
}

/** A thing that another changed since the base, and of which that change is not in what came of it. */
export interface ShelfLoss {
  readonly kind: Kind;
  readonly name: string;
  /** as the other left it; null where it was taken away */
  readonly theirs: Piece | null;
}

/** Everything that others did since the base and that `merged` has otherwise: what somebody has to be asked about.
 * Errors  none */
export function lostOf(base: Shelf | undefined, there: Shelf, merged: Shelf): ShelfLoss[] {
  return KINDS.flatMap((kind) => {
    const [b, t, m] = [base?.[kind] ?? [], there[kind], merged[kind]].map(byName);
    const names = [...new Set([...(b?.keys() ?? []), ...(t?.keys() ?? [])])];
    return names.flatMap((name) => {
      const [was, theirs, now] = [b?.get(name), t?.get(name), m?.get(name)];
      if (base === undefined && theirs === undefined) return [];
      return isLost(was, theirs, now) ? { kind, name, theirs: (theirs ?? null) as Piece | null } : [];
    });
  });
}

/** The shelf with that thing as the other left it. */
export function withTheirs(shelf: Shelf, { kind, name, theirs }: ShelfLoss): unknown {
  const pieces: readonly Named[] = shelf[kind];
  const isHere = pieces.some((piece) => piece.name === name);
  const next = isHere
    ? pieces.flatMap((piece) => (piece.name === name ? (theirs ?? []) : piece))
    : [...pieces, ...(theirs === null ? [] : [theirs])];
  return { ...shelf, [kind]: next };
}

function mergePieces(
  kind: Kind,
  base: readonly Named[] | undefined,
  there: readonly Named[],
  mine: readonly Named[],
): Named[] {
  const [b, t, m] = [byName(base ?? []), byName(there), byName(mine)];
  // in my order: what I renamed stays where I see it
  const merged = [...new Set([...m.keys(), ...t.keys()])].flatMap((name) => {
    const [was, theirs, ours] = [b.get(name), t.get(name), m.get(name)];
    if (base === undefined) return ours ?? theirs ?? [];
    return mergePiece(kind, was, theirs, ours) ?? [];
  });
  return merged.slice(0, MOST_PIECES);
}

function mergePiece(kind: Kind, was?: Named, theirs?: Named, ours?: Named): Named | undefined {
  if (isSameData(ours, was)) return theirs;
  if (was === undefined || theirs === undefined || ours === undefined) return ours;
  const [b, t, m] = [was, theirs, ours].map((piece) => piece as unknown as Fields) as [
    Fields,
    Fields,
    Fields,
  ];
  const joined = Object.fromEntries(
    Object.keys({ ...m, ...t }).map((key) => [key, isSameData(m[key], b[key]) ? t[key] : m[key]]),
  );
  const alone = { format: SHELF_FORMAT, version: SHELF_VERSION, [kind]: [joined] };
  return shelfSchema.safeParse(alone).success ? (joined as unknown as Named) : ours;
}

function isLost(was?: Named, theirs?: Named, now?: Named): boolean {
  if (isSameData(theirs, was) || isSameData(theirs, now)) return false;
  if (was === undefined || theirs === undefined || now === undefined) return true;
  const [b, t, n] = [was, theirs, now].map((piece) => piece as unknown as Fields) as [Fields, Fields, Fields];
  return Object.keys({ ...b, ...t }).some(
    (key) => !isSameData(t[key], b[key]) && !isSameData(t[key], n[key]),
  );
}

function byName(pieces: readonly Named[]): Map<string, Named> {
  return new Map(pieces.map((piece) => [piece.name, piece]));
}
