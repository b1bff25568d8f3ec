import type { Bench } from "./bench.ts";
import type { Sheet } from "./handling.ts";
import type { PaperHand } from "./paper-hand.ts";

/** One press brings the paper so much nearer. */
export const NEARER = 1.5;

interface SightButtonsProps {
  readonly bench: Bench;
  readonly hand: PaperHand;
  readonly size: { readonly width: number; readonly height: number };
  readonly sheet: Sheet;
  readonly times: number;
}

/** How near the paper is, in the corner of the sheet. */
export function SightButtons({ bench, hand, size, sheet, times }: SightButtonsProps) {
  const middle = { x: size.width / 2, y: size.height / 2 };
  const of = <span class="visually-hidden"> {sheet.name}</span>;
  const look = (act: () => void) => () => {
    act();
    bench.say.set(sightWords(sheet, hand.sight?.times ?? 1));
  };
  return (
    <div class="sight">
      <button type="button" disabled={times === 1} onClick={look(() => hand.fit())}>
        whole{of}
      </button>
      <button
        type="button"
        disabled={times === 1}
        aria-label={`smaller, ${sheet.name}`}
        onClick={look(() => hand.zoom(1 / NEARER, middle))}
      >
        −
      </button>
      <button
        type="button"
        aria-label={`larger, ${sheet.name}`}
        onClick={look(() => hand.zoom(NEARER, middle))}
      >
        +
      </button>
    </div>
  );
}

export function sightWords(sheet: Sheet, times: number): string {
  return times === 1 ? `${sheet.name}: the whole of it` : `${sheet.name}: ${times.toFixed(1)} times as large`;
}
