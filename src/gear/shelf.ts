/** A shelf read, written and changed. A shelf is plain data: whoever shows it keeps the ones before for undo. */
import type { z } from "zod";
import { type Problem, pathText, shown, valueAt } from "../plan/problems.ts";
import {
  KINDS,
  type Kind,
  MOST_PIECES,
  type PieceOf,
  SHELF_FORMAT,
  SHELF_VERSION,
  type Shelf,
  shelfSchema,
} from "./schema.ts";

export type ShelfRead =
  | { readonly ok: true; readonly shelf: Shelf }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** A shelf with nothing on it. */
export const EMPTY_SHELF: Shelf = shelfSchema.parse({ format: SHELF_FORMAT, version: SHELF_VERSION });

/** The shelf in a document, with what is left out filled in, or what is wrong with it.
 * Errors  none thrown, whatever the value */
export function readShelf(value: unknown): ShelfRead {
  const result = shelfSchema.safeParse(value);
  if (result.success) return { ok: true, shelf: result.data };
  return { ok: false, problems: result.error.issues.flatMap((issue) => problemsOf(issue, value)) };
}

function problemsOf(issue: z.core.$ZodIssue, document: unknown): Problem[] {
  const place = (path: readonly PropertyKey[]) => (path.length === 0 ? "shelf" : pathText(path));
  if (issue.code === "unrecognized_keys")
    return issue.keys.map((key) => ({
      path: place([...issue.path, key]),
      what: "unknown field; take it out",
    }));
  const must =
    issue.code === "invalid_type" && issue.expected === "object"
      ? "must be a group of fields in braces: { … }"
      : issue.message;
  return [{ path: place(issue.path), what: `${must}; ${shown(valueAt(document, issue.path))}` }];
}

/** The shelf as a file: two spaces, fields in the order of the format. What is read back is the same shelf. */
export function shelfText(shelf: Shelf): string {
  return `${JSON.stringify(shelfSchema.parse(shelf), null, 2)}\n`;
}

/** The shelf with a piece more, or with another in the place of the one at `index`.
 * Errors  none thrown: what is wrong with the piece comes back as problems */
export function withPiece<K extends Kind>(
  shelf: Shelf,
  kind: K,
  piece: PieceOf<K>,
  index: number | null = null,
): ShelfRead {
  const pieces: readonly unknown[] = shelf[kind];
  const next = index === null ? [...pieces, piece] : pieces.map((each, i) => (i === index ? piece : each));
  return readShelf({ ...shelf, [kind]: next });
}

export function withoutPiece(shelf: Shelf, kind: Kind, index: number): Shelf {
  const pieces: readonly unknown[] = shelf[kind];
  return { ...shelf, [kind]: pieces.filter((_, i) => i !== index) };
}

/** A name that nothing of this kind has: "head", "head 2", … */
export function freePieceName(shelf: Shelf, kind: Kind, wanted: string): string {
  const taken = new Set(shelf[kind].map(({ name }) => name));
  let free = wanted;
  for (let n = 2; taken.has(free); n++) free = `${wanted} ${n}`;
  return free;
}

/** What is on the shelf stays as it is; what only the other one has is added. */
export function addedToShelf(here: Shelf, other: Shelf): { readonly shelf: Shelf; readonly added: number } {
  const joined: Record<string, unknown> = { ...here };
  let added = 0;
  for (const kind of KINDS) {
    const pieces: readonly Named[] = here[kind];
    const names = new Set(pieces.map(({ name }) => name));
    const more = other[kind].filter(({ name }) => !names.has(name)).slice(0, MOST_PIECES - pieces.length);
    joined[kind] = [...pieces, ...more];
    added += more.length;
  }
  return { shelf: shelfSchema.parse(joined), added };
}

type Named = { readonly name: string };
