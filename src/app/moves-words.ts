/** What a move does and changes, said short under its picture and in full for the ear and the line below. */
import type { Effect, Move } from "../finder/index.ts";

export interface MoveWords {
  readonly does: string;
  /** the pattern after it; null while it is not known or nobody is read */
  readonly pattern: string | null;
  readonly change: string;
  /** one or two of what else changes */
  readonly aside: string;
  /** the rest, for the ear */
  readonly more: string;
}

const UNCHANGED = "light on the face unchanged";

export function moveWords(move: Move, effect: Effect | null): MoveWords {
  const nose = move.nose === "follows" ? "nose follows" : move.nose === "stays" ? "head still" : "";
  const does = unbroken(move.does);
  if (move.why !== null) return { does, pattern: null, change: move.why, aside: "", more: "" };
  if (effect === null) return { does, pattern: null, change: "", aside: nose, more: "" };
  const light = effect.lightUnchanged && move.nose === "stays" ? UNCHANGED : nose;
  const [first, ...rest] = effect.others;
  return {
    does,
    pattern: effect.pattern,
    change: effect.exposure,
    aside: [light, first ?? ""].filter((words) => words !== "").join("; "),
    more: rest.join("; "),
  };
}

/** "camera round 10° to the left: head still, light on the face unchanged; background −0.1 stop" */
export function moveSentence(move: Move, effect: Effect | null): string {
  if (move.why !== null) return `${move.does}: cannot be made, ${move.why}`;
  const title = move.edit?.label ?? move.does;
  if (effect === null) return title;
  const parts = [`${effect.pattern}, ${effect.exposure}`];
  if (move.nose === "follows") parts.push("the nose follows the lens");
  if (move.nose === "stays")
    parts.push(`the head stays as it is${effect.lightUnchanged ? `, ${UNCHANGED}` : ""}`);
  return `${title}: ${[...parts, ...effect.others].join("; ")}`;
}

/** A number and its unit stay on one line. */
function unbroken(words: string): string {
  return words.replace(/(\d) cm/g, "$1\u00a0cm");
}
