/** What "Can it do that?" is asked and answers. */
import type { LengthUnits } from "../units/index.ts";
import type { Shelf, ShelfBody } from "./schema.ts";

/** The finished picture, as far as blur goes: of a final use, or of nothing. */
export interface FinalScale {
  /** of the finished picture, over the part of the sensor that is used */
  readonly enlargement: number;
  /** what the eye tells apart there, mm */
  readonly eye_mm: number;
}

export interface CanAsk {
  readonly units: LengthUnits;
  /** how much more light than the plan has is wanted of this light: f/8 read and f/2 wanted is -4; 0 when left out */
  readonly stopsMore?: number;
  /** whose other heads and bodies are looked through; nothing else is on hand when left out */
  readonly shelf?: Shelf | null;
  /** which body it is; the shelf's one of the plan's sensor when left out */
  readonly body?: ShelfBody | null;
  readonly final?: FinalScale | null;
}

export type CanAbout = "power" | "recycle" | "duration" | "sync";

/** One way out, with its numbers. */
export interface CanWay {
  readonly kind: "filter" | "iso" | "grid" | "distance" | "aperture" | "head" | "slower" | "shutter";
  /** what to do: "filter of 4.0 stops on the lens" */
  readonly what: string;
  /** what else that changes, direction and power apart */
  readonly effect: string;
  /** of those that are missing, how many this way gives; null where it gives as many as are wanted or is no matter of stops */
  readonly stops: number | null;
}

export interface CanRow {
  readonly about: CanAbout;
  /** the state, as a word: never a colour, never that it is all right */
  readonly word: string;
  readonly sentence: string;
  readonly ways: readonly CanWay[];
}

export interface CanItDo {
  readonly light: number;
  readonly name: string;
  /** what is wanted of the dial, stops under full; null where it has no dial */
  readonly stopsDown: number | null;
  /** above 0: so many stops too weak at full; below 0: too bright at its least; 0: within the dial */
  readonly outside: number;
  readonly rows: readonly CanRow[];
}
