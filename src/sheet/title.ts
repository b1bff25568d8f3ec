/** What stands over the first page: the plan's title, the date, the room. */
import type { SetupContext } from "./setup-order.ts";
import { QUIET, textOf } from "./svg.ts";
import { fitText, wrapTo } from "./text.ts";
import { roomWords } from "./words.ts";

/** Of the page, mm. */
export const MARGIN = 11;
/** mm; what takes more lines is shortened. */
export const TITLE = { size: 5.4, leading: 6.6, lines: 2 } as const;

export function title({ plan, units }: SetupContext, date: string | undefined, width: number) {
  const lines = wrapTo(plan.title, TITLE.lines, width, TITLE.size, 600);
  const about = ["Placement sheet", ...(date === undefined ? [] : [date]), roomWords(plan, units)].join(
    " · ",
  );
  const bottom = MARGIN + lines.length * TITLE.leading;
  return {
    bottom: bottom + 6,
    parts: [
      ...lines.map((line, i) =>
        textOf(MARGIN, MARGIN + TITLE.size + i * TITLE.leading - 1, line, { size: TITLE.size, weight: 600 }),
      ),
      textOf(MARGIN, bottom + 2.6, fitText(about, width, 3), { size: 3, fill: QUIET }),
    ],
  };
}
