// Writes docs/pictures/pattern-sheet-*.jpg: a frame of the face under one light from every side of the charts, for looking
// at. Needs a Chromium. npm run contact-sheet [hard|medium|large]
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { encode } from "fast-png";
import { chromium } from "playwright-core";
import { withModules } from "./modules.mjs";

process.chdir(join(dirname(fileURLToPath(import.meta.url)), ".."));

const WIDTH = 300;
const HEIGHT = 375;
/** In docs each frame is shown at this share of its size. */
const SHOWN = 0.5;
const QUALITY = 82;

const asked = process.argv.slice(2);
const folder = mkdtempSync(join(tmpdir(), "tapemark-sheet-"));
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  args: ["--no-sandbox", "--disable-gpu", "--disable-quic"],
});
try {
  await withModules(async (load) => {
    const grid = await load("/reference/pattern-grid.ts");
    const { Memory, renderFrame, developFrame } = await load("/src/reading/index.ts");
    const memory = new Memory();
    const [columns, rows] = [grid.AZIMUTHS.length, grid.ELEVATIONS.length];
    for (const source of asked.length > 0 ? asked : Object.keys(grid.SOURCES)) {
      const data = new Uint8Array(3 * columns * WIDTH * rows * HEIGHT);
      grid.ELEVATIONS.forEach((elevation, row) => {
        grid.AZIMUTHS.forEach((azimuth, column) => {
          const plan = grid.gridPlan(source, azimuth, elevation);
          const frame = renderFrame(plan, { width: WIDTH, quality: "fine" }, memory);
          if (frame.height !== HEIGHT) throw new Error(`a frame of ${frame.width} x ${frame.height}`);
          copy(developFrame(frame, plan.camera).rgba, data, column * WIDTH, row * HEIGHT, columns * WIDTH);
        });
        console.log(`${source}: ${row + 1} of ${rows} rows`);
      });
      const png = join(folder, `${source}.png`);
      const [width, height] = [columns * WIDTH, rows * HEIGHT];
      writeFileSync(png, encode({ width, height, data, channels: 3, depth: 8 }));
      await photograph(png, `docs/pictures/pattern-sheet-${source}.jpg`, width * SHOWN, height * SHOWN);
    }
  });
} finally {
  await browser.close();
  if (process.env.KEEP_SHEETS === undefined) rmSync(folder, { recursive: true, force: true });
  else console.log(folder);
}

function copy(rgba, data, left, top, across) {
  for (let y = 0; y < HEIGHT; y++)
    for (let x = 0; x < WIDTH; x++)
      for (let c = 0; c < 3; c++)
        data[3 * ((top + y) * across + left + x) + c] = rgba[4 * (y * WIDTH + x) + c];
}

async function photograph(png, path, width, height) {
  const page = await browser.newPage({ viewport: { width: Math.ceil(width), height: Math.ceil(height) } });
  const html = `${png}.html`;
  writeFileSync(html, `<body style="margin:0"><img src="file://${png}" style="width:100%;display:block">`);
  await page.goto(`file://${html}`);
  await page.locator("img").evaluate((image) => image.decode());
  await page.screenshot({ path, type: "jpeg", quality: QUALITY });
  await page.close();
}
