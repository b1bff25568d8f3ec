/** How differences are told. */
import type { ComparedLine } from "./types.ts";

export function cannotTell(what: ComparedLine["what"], planned: string): ComparedLine {
  return { what, planned, seen: "cannot tell", difference: "", amount: null, state: "cannot tell" };
}

/** After a difference that is smaller than what the frame is sure of. */
export const UNSURE = ", less than this frame is sure of";

/** "0.4 stop", "1.2 stops". */
export function stopsWords(stops: number): string {
  const text = Math.abs(stops).toFixed(1);
  return `${text} ${Number(text) <= 1 ? "stop" : "stops"}`;
}

export function centimetres(metres: number): string {
  return `${Math.max(1, Math.round(100 * Math.abs(metres)))} cm`;
}
