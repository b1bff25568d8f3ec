/** A student's guess before anything is shown: where the tip of the nose's shadow falls, and what the meter reads. */
export interface Guess {
  /** null until placed */
  readonly shadow: ShadowGuess | null;
  /** null until typed */
  readonly fNumber: number | null;
  /** compared: everything is shown again, beside the guess */
  readonly compared: boolean;
}

/** Millimetres from the tip of the nose, seen from straight ahead: + to the person's own left, + up. */
export interface FacePlace {
  readonly left_mm: number;
  readonly up_mm: number;
}

/** Where the tip falls, or that none is seen. */
export type ShadowGuess = FacePlace | "none";

export const NO_GUESS_YET: Guess = { shadow: null, fNumber: null, compared: false };

/** Whether everything that tells is to be hidden: Frame, Reading, the layers and every number that was read. */
export function isGuessing(guess: Guess | null): boolean {
  return guess !== null && !guess.compared;
}
