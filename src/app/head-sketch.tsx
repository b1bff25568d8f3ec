import { type HeadView, MEAN_HEAD_LINES } from "../figure/index.ts";

/** Millimetres on the page, across and down; the middle between the ears is where both are 0. */
function pathData(lines: readonly (readonly number[])[]): string {
  return lines
    .map((line) => {
      let data = "";
      line.forEach((mm, i) => {
        data += i % 2 === 0 ? `${i === 0 ? "M" : "L"}${mm}` : `,${-mm}`;
      });
      return data;
    })
    .join("");
}

const PATHS: Readonly<Record<HeadView, { outline: string; features: string }>> = {
  front: {
    outline: pathData(MEAN_HEAD_LINES.front.outline),
    features: pathData(MEAN_HEAD_LINES.front.features),
  },
  side: {
    outline: pathData(MEAN_HEAD_LINES.side.outline),
    features: pathData(MEAN_HEAD_LINES.side.features),
  },
};

/** The figure's own head in thin lines, in millimetres; `scale` is its size over the mean head's. */
export function HeadSketch({ view, scale = 1 }: { view: HeadView; scale?: number }) {
  return (
    <g class="head-sketch" transform={scale === 1 ? undefined : `scale(${scale})`}>
      <path class="outline" d={PATHS[view].outline} />
      <path d={PATHS[view].features} />
    </g>
  );
}
