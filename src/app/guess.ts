/** A student's guess before anything is shown: where the tip of the nose's shadow falls, and what the meter reads. */
export interface Guess {
  /** millimetres from the tip of the nose, seen from straight ahead: + to the person's own left, + up; null until placed */
  readonly shadow: { readonly left_mm: number; readonly up_mm: number } | null;
  /** null until typed */
  readonly fNumber: number | null;
  /** compared: everything is shown again, beside the guess */
  readonly compared: boolean;
}

export const NO_GUESS_YET: Guess = { shadow: null, fNumber: null, compared: false };

/** Whether Reading and Frame are to be hidden. */
export function isGuessing(guess: Guess | null): boolean {
  return guess !== null && !guess.compared;
}
