/** What a new thing on the shelf begins as: the middling one of its kind, marked typical until its own numbers are in. */
import { freePieceName, type Kind, ONE_PIECE, type Shelf } from "../gear/index.ts";

/** What has no usual value is given one to be changed (common practice, no source). */
const BEGINNINGS: Readonly<Record<Kind, object>> = {
  heads: { full: { wattSeconds: 400 } },
  modifiers: { face: { shape: "disc", width: 0.9 } },
  panels: { width: 1, height: 2 },
  stands: {},
  papers: {},
  lenses: { shortest: 85, longest: 85, widest: 1.8 },
  bodies: {},
  others: {},
};

/** The shelf with one more of a kind, not checked yet. */
export function withNewPiece(shelf: Shelf, kind: Kind): unknown {
  const name = freePieceName(shelf, kind, ONE_PIECE[kind]);
  return { ...shelf, [kind]: [...shelf[kind], { ...BEGINNINGS[kind], name, isTypical: true }] };
}
