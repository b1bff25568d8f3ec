/** What of a sheet is looked at, and the ways of looking nearer and elsewhere. */
import type { PaperPoint, Sheet } from "./handling.ts";
import { type Pane, type Projection, projectionOf, type Sight, sightThrough } from "./projection.ts";

export interface Px {
  readonly x: number;
  readonly y: number;
}

/** One press brings the paper so much nearer. */
export const NEARER = 1.5;

export class PaperSight {
  sight: Sight | null = null;
  pane: Pane;
  readonly #look: (sight: Sight | null) => void;

  /** `look` shows what is looked at from now on */
  constructor(pane: Pane, look: (sight: Sight | null) => void) {
    this.pane = pane;
    this.#look = look;
  }

  get times(): number {
    return this.sight?.times ?? 1;
  }

  get projection(): Projection {
    return projectionOf(this.pane, this.sight);
  }

  paperAt({ x, y }: Px): PaperPoint {
    return this.projection.toPaper(x, y);
  }

  /** Brings a point of the paper to a place in the window, so many times as large as the whole. */
  bring(point: PaperPoint, at: Px, times: number): void {
    this.sight = sightThrough(this.pane, point, at, times);
    this.#look(this.sight);
  }

  /** Nearer to what lies at a place; to the middle where none is given, or none that is seen. */
  zoom(factor: number, at: Px | null): void {
    const { width, height } = this.pane.size;
    const isSeen = at !== null && at.x > 0 && at.x < width && at.y > 0 && at.y < height;
    const place = isSeen ? at : { x: width / 2, y: height / 2 };
    this.bring(this.paperAt(place), place, this.times * factor);
  }

  pan(dx: number, dy: number): void {
    this.bring(this.paperAt({ x: 0, y: 0 }), { x: dx, y: dy }, this.times);
  }

  fit(): void {
    this.sight = null;
    this.#look(null);
  }
}

export function sightWords(sheet: Sheet, times: number): string {
  return times === 1 ? `${sheet.name}: the whole of it` : `${sheet.name}: ${times.toFixed(1)} times as large`;
}
