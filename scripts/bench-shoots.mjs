// Part of npm run bench:app: a library of 2,000 shoots and 50,000 frames is scrolled from its top to its end, and the tasks
// of the page that were long meanwhile are counted.
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { performance } from "node:perf_hooks";
import { bundled } from "./bundled.mjs";

const SIZE = { shoots: 2000, frames: 50_000 };
/** A screen's refresh. */
const EVERY_MS = 1000 / 60;
/** As far as a hard turn of the wheel goes in that time. */
const STEP_PX = 600;

/** Where the library lies, for as long as this process runs. */
export async function makeShoots() {
  const folder = mkdtempSync(join(tmpdir(), "tapemark-bench-shoots-"));
  process.once("exit", () => rmSync(folder, { recursive: true, force: true }));
  const path = join(folder, "library.tapemark");
  const { makeLibraryFile } = await bundled("bench/library-file.ts");
  makeLibraryFile(path, JSON.parse(readFileSync("examples/cellist.json", "utf8")), SIZE);
  return path;
}

/** The list from top to end by the wheel, then by keys to either end. */
export async function scrollShoots(page) {
  await page.getByRole("button", { name: "Shoots", exact: true }).click();
  const list = page.getByRole("listbox", { name: /^Shoots/ });
  await list.getByRole("option").first().waitFor();
  const box = await list.boundingBox();
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  const long = () => page.evaluate(() => globalThis.benchSeen.longTasks);
  await page.evaluate(() => {
    globalThis.benchSeen.longTasks.length = 0;
  });
  const height = await list.evaluate((element) => element.scrollHeight);
  let most = 0;
  const began = performance.now();
  for (let k = 1; k * STEP_PX < height; k++) {
    await page.mouse.wheel(0, STEP_PX);
    if (k % 30 === 0) most = Math.max(most, await list.getByRole("option").count());
    await new Promise((resolve) =>
      setTimeout(resolve, Math.max(0, began + k * EVERY_MS - performance.now())),
    );
  }
  const last = list.getByRole("option").last();
  await page.waitForFunction(() =>
    [...document.querySelectorAll("[role=option]")].at(-1)?.textContent?.includes("plan"),
  );
  const atEnd = await last.getAttribute("aria-posinset");
  await list.press("Home");
  await list.press("End");
  await page.waitForTimeout(500);
  return { longest: Math.max(0, ...(await long()).map((task) => task.duration)), most, atEnd: Number(atEnd) };
}
