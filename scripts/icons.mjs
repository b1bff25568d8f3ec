// Writes the icons of the installed page from the mark's own strokes: node scripts/icons.mjs
import { writeFileSync } from "node:fs";
import { encode } from "fast-png";

const PAPER = [0xf5, 0xf4, 0xef];
const WARM = [0xa8, 0x74, 0x1a];
/** The strokes of mark.svg as boxes on its field of 32: the tape across, the tape down. */
const BOXES = [
  [6, 5.5, 26, 10.5],
  [13.5, 8, 18.5, 26],
];
/** What a platform may cut off lies outside a circle of 40 % of the width: the mark is drawn in smaller. */
const SIZES = [
  ["icon-192.png", 192, 1],
  ["icon-512.png", 512, 1],
  ["icon-maskable-512.png", 512, 0.78],
];

for (const [name, size, scale] of SIZES)
  writeFileSync(
    `src/app/public/${name}`,
    encode({ width: size, height: size, channels: 3, data: draw(size, scale) }),
  );

function draw(size, scale) {
  const data = new Uint8Array(size * size * 3);
  const middle = (16 + 15.75) / 2;
  const toField = (pixel) => ((pixel / size) * 32 - 16) / scale + middle;
  for (let y = 0; y < size; y++)
    for (let x = 0; x < size; x++) {
      const share = covered(toField(x), toField(y), toField(x + 1), toField(y + 1));
      for (let k = 0; k < 3; k++)
        data[(y * size + x) * 3 + k] = Math.round(PAPER[k] + share * (WARM[k] - PAPER[k]));
    }
  return data;
}

/** How much of a pixel the strokes cover; they overlap only where both are whole. */
function covered(x0, y0, x1, y1) {
  const share = ([bx0, by0, bx1, by1]) =>
    (Math.max(0, Math.min(x1, bx1) - Math.max(x0, bx0)) *
      Math.max(0, Math.min(y1, by1) - Math.max(y0, by0))) /
    ((x1 - x0) * (y1 - y0));
  return Math.min(1, Math.max(...BOXES.map(share)));
}
