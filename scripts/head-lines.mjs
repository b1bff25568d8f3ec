// Draws the mean head from the front and from the side: writes src/figure/head-lines.generated.ts
import { writeFileSync } from "node:fs";
import { bundled } from "./bundled.mjs";

const FILE = "src/figure/head-lines.generated.ts";
const { meanHeadLines } = await bundled("src/figure/head-lines.ts");
writeFileSync(
  FILE,
  `// Written by scripts/head-lines.mjs from the figure itself (src/figure/head-lines.ts). Do not edit.
import type { HeadLines } from "./head-lines.ts";
import type { HeadView } from "./head-raster.ts";

export const MEAN_HEAD_LINES: Readonly<Record<HeadView, HeadLines>> = ${JSON.stringify(meanHeadLines())};
`,
);
