import type { Bench } from "./bench.ts";
import type { Sheet } from "./handling.ts";
import { NEARER, type PaperHand, sightWords } from "./paper-hand.ts";

interface SightButtonsProps {
  readonly bench: Bench;
  readonly hand: PaperHand;
  readonly size: { readonly width: number; readonly height: number };
  readonly sheet: Sheet;
  readonly times: number;
  /** where the paper, or what is seen of it, ends, pixels from the right */
  readonly right: number;
}

/** How near the paper is, in the corner of the sheet. */
export function SightButtons({ bench, hand, size, sheet, times, right }: SightButtonsProps) {
  const middle = { x: size.width / 2, y: size.height / 2 };
  const of = <span class="visually-hidden"> {sheet.name}</span>;
  const look = (act: () => void) => () => {
    act();
    bench.say.set(sightWords(sheet, hand.sight?.times ?? 1));
  };
  return (
    <div class="sight" style={{ right: `${right}px` }}>
      <button type="button" disabled={times === 1} onClick={look(() => hand.fit())}>
        fit{of}
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
