import type { Bench } from "./bench.ts";
import type { Sheet } from "./handling.ts";
import { NEARER, type PaperSight, sightWords } from "./paper-sight.ts";

interface SightButtonsProps {
  readonly bench: Bench;
  readonly paper: PaperSight;
  readonly sheet: Sheet;
  readonly times: number;
  /** where the paper, or what is seen of it, ends, pixels from the right */
  readonly right: number;
}

/** How near the paper is, in the corner of the sheet. */
export function SightButtons({ bench, paper, sheet, times, right }: SightButtonsProps) {
  const of = <span class="visually-hidden"> {sheet.name}</span>;
  const look = (act: () => void) => () => {
    act();
    bench.say.set(sightWords(sheet, paper.times));
  };
  return (
    <div class="sight" style={{ right: `${right}px` }}>
      <button type="button" disabled={times === 1} onClick={look(() => paper.fit())}>
        fit{of}
      </button>
      <button
        type="button"
        disabled={times === 1}
        aria-label={`smaller, ${sheet.name}`}
        onClick={look(() => paper.zoom(1 / NEARER, null))}
      >
        −
      </button>
      <button
        type="button"
        aria-label={`larger, ${sheet.name}`}
        onClick={look(() => paper.zoom(NEARER, null))}
      >
        +
      </button>
    </div>
  );
}
