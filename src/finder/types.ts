/** The words of the finder: what is asked, what is answered. docs/finding.md has them for people. */
import type { Edit, Plan, Want } from "../plan/index.ts";
import type { Pattern, TryReading } from "../reading/index.ts";

/** A wish of the brief that a set-up is held to; "frame" and "clearance" are always. */
export type Wish = keyof Want | "frame" | "clearance" | "power";

/** How far a wish is met. */
export interface WishMet {
  readonly wish: Wish;
  readonly isMet: boolean;
  /** as told to people: "Rembrandt", "1.2 to 1.7 stops" */
  readonly asked: string;
  readonly got: string;
  /** how far inside, or, negative, how far outside what is asked, in the wish's own unit; null where it is yes or no */
  readonly margin: number | null;
  /** "0.2 stop", "14 cm": the margin in words, "" where there is none */
  readonly marginWords: string;
  /** why not, where it is known: "ceiling: the best elevation possible is 31°" */
  readonly why: string | null;
}

/** What sort of set-up it is: what a photographer would call the difference. */
export type SetUpKind =
  | "one light"
  | "one light and a white panel"
  | "one light and a black panel"
  | "two lights"
  | "a light for the background"
  | "the camera moved"
  | "the sitter turned"
  | "seated"
  | "feathered"
  | "backed off";

/** A part of the search that can be worked out by itself, plain data: the same task gives the same candidates wherever. */
export interface SearchTask {
  readonly kind: SetUpKind;
  /** places in brief.gear of the lights (and which front of each) and panels that it may use */
  readonly lights: readonly { readonly light: number; readonly front: number }[];
  readonly panels: readonly number[];
  readonly seed: number;
}

/** A set-up as the fast model found it, not yet traced. */
export interface Candidate {
  readonly kind: SetUpKind;
  readonly plan: Plan;
  /** 0 where every wish is met; grows with what is missed */
  readonly cost: number;
  readonly quick: TryReading;
}

/** A set-up, traced with everything in it. */
export interface SetUp {
  readonly kind: SetUpKind;
  /** "one light, from own left, 1.3 m off" */
  readonly title: string;
  /** complete: positions, aim, heights, power on the dial, f-number, camera */
  readonly plan: Plan;
  readonly isMet: boolean;
  readonly wishes: readonly WishMet[];
  readonly reading: TryReading;
  readonly hold: HoldZone | null;
}

/** What would help most where nothing fits. */
export interface Relaxing {
  readonly wish: Wish;
  /** "if the ratio may be 2.1 stops" */
  readonly words: string;
}

export interface FindAnswer {
  readonly format: "tapemark/found";
  readonly version: 1;
  readonly isMet: boolean;
  /** set-ups tried on the fast model */
  readonly tried: number;
  /** up to five that really differ, best first; where none meets the brief, the nearest misses */
  readonly setUps: readonly SetUp[];
  /** null where the brief is met */
  readonly relax: Relaxing | null;
}

/** What ends a hold zone on a side. */
export type HoldLimit =
  | { readonly by: "pattern"; readonly pattern: Pattern }
  | { readonly by: "exposure" | "ratio"; readonly stops: number }
  | { readonly by: "headroom"; readonly stops: number }
  | { readonly by: "wall" | "thing"; readonly name: string }
  /** nothing within the reach that was looked at */
  | { readonly by: "reach" };

export interface HoldZone {
  readonly person: number;
  /** the mark: where the person stands as planned, metres */
  readonly mark: readonly [number, number];
  readonly asked: {
    readonly pattern: Pattern;
    readonly exposureStops: number;
    readonly ratioStops: number | null;
    readonly headroomStops: number | null;
  };
  /** going round the mark once: metres in the room, and what ends it there */
  readonly outline: readonly { readonly x: number; readonly y: number; readonly limit: HoldLimit }[];
  /** the largest circle that lies inside; never called safe */
  readonly circle: { readonly x: number; readonly y: number; readonly radius_m: number };
  /** as taped from the mark: toward where the body faces, its own left, behind, its own right */
  readonly sides: readonly {
    readonly side: "ahead" | "own left" | "behind" | "own right";
    readonly centimetres: number;
    readonly limit: HoldLimit;
  }[];
  /** degrees of head.turn (+ own left) and head.tip (+ chin up) either way */
  readonly turn: HoldAngles;
  readonly tip: HoldAngles;
}

export interface HoldAngles {
  readonly least: number;
  readonly leastLimit: HoldLimit;
  readonly most: number;
  readonly mostLimit: HoldLimit;
}

/** A wish about the set-up as it stands. */
export type Ask =
  | { readonly ask: "pattern"; readonly pattern: Pattern }
  /** change of a number, all else as little as possible */
  | { readonly ask: "ratio" | "exposure"; readonly byStops: number }
  /** the face's exposure stays */
  | { readonly ask: "background"; readonly byStops: number }
  | { readonly ask: "headroom"; readonly toStops: number }
  | { readonly ask: "glasses" };

/** How easily a person does it on set: camera and chin before stands, stands before power, power before gear. */
export type Ease = "camera" | "sitter" | "stand" | "power" | "gear";

export interface Remedy {
  readonly ease: Ease;
  /** "chin up 6°", "key up 22 cm, aim kept" */
  readonly does: string;
  readonly edit: Edit;
  /** what it does to everything else: "exposure −0.2 stop", "catchlight 1:00 to 12:30" */
  readonly costs: readonly string[];
  readonly after: TryReading;
}

/** One small step that can be taken from a plan as it stands, and what it changes. */
export interface TriedStep {
  /** the thing that moves: "camera", a person's, a light's or a panel's name */
  readonly of: string;
  readonly ease: Ease;
  /** "round 10° left", "up 15 cm" */
  readonly does: string;
  /** null where it cannot be made, and why in words */
  readonly edit: Edit | null;
  readonly why: string | null;
  readonly after: TryReading | null;
  /** what is warned of after it and was not before */
  readonly warns: readonly string[];
}

export interface TriedSteps {
  readonly before: TryReading;
  readonly steps: readonly TriedStep[];
}

export interface SearchResult {
  /** the best of the task, best first */
  readonly candidates: readonly Candidate[];
  readonly tried: number;
}
