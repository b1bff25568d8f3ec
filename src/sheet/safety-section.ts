/** Sums of weights and watts, short enough for a print: as it stands, with the lamp removed, and what is over. */
import { type SafetyRow, type SafetySum, sumWords } from "../safety/index.ts";
import { type Piece, paragraphPiece } from "./flow.ts";

/** A support has a dozen sums, which its page in the program shows; on paper stand those that are acted on. Of what
 * is under the ceiling the highest comes first. */
function isPrinted({ kind }: SafetyRow, sum: SafetySum, i: number): boolean {
  return i === 0 || sum.isOver || (kind !== "room" && /^load off|at once$/.test(sum.what));
}

export function safetyParagraphs(rows: readonly SafetyRow[], width: number): Piece[] {
  return rows.map((row) => {
    const sums = row.sums.filter((sum, i) => isPrinted(row, sum, i)).map(sumWords);
    // what is missing from the plan is asked for where it is filled in; what to look up on the spot is asked for here
    const asks = row.kind === "room" ? row.asks : noSumAsk(row);
    const about = row.kind === "room" ? [] : [row.about];
    const text = [
      ...about,
      ...(sums.length > 0 ? [`${sums.join("; ")}.`] : []),
      ...asks.map((ask) => `${ask}.`),
    ].map((sentence, i) => (i === 0 ? sentence : begun(sentence)));
    return paragraphPiece(`${row.heading}: ${text.join(" ")}`, width, { lead: "–" });
  });
}

/** Where there is no sum of the mains at all: the circuit, which stands last, and can be read off on the spot. */
function noSumAsk({ asks, kind, sums }: SafetyRow): readonly string[] {
  return kind === "mains" && sums.length === 0 ? asks.slice(-1) : [];
}

/** For what follows a full stop. What follows the heading may be somebody's own name for a light, and keeps its letters. */
const begun = (sentence: string) => sentence.charAt(0).toUpperCase() + sentence.slice(1);
