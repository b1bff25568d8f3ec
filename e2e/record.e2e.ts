/** What is kept on paper: record and contact sheets from step 6 and from a shoot, with and without the program behind it. */
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, BrowserContext, Download, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest";
import { drawn, launch, openPage, type Served, serve, unlit, violations } from "./start.ts";

/** Nothing but a panel can be moved, and nothing is lit: two frames that are soon traced. */
const SITTER = {
  format: "tapemark/plan",
  version: 1,
  title: "Cellist in the dark",
  camera: { position: [0, -3, 1.6], direction: { at: [0, 0, 1.6] }, pinned: true },
  // the neck goes no further either way
  people: [{ name: "cellist", position: [0, 0], pinned: true, head: { turn: 80, tip: -40 } }],
};
/** Little to work out: what is tried here is the way to the sheets, not the light on them. */
const PLAN = {
  format: "tapemark/plan",
  version: 1,
  title: "Season poster, empty stage",
  camera: { position: [0, -3, 1.6], direction: { at: [0, 0, 1.6] } },
  lights: [
    {
      name: "key",
      position: [1, -1, 2],
      direction: { at: [0, 0, 1.6] },
      face: { shape: "point" },
      output: { wattSeconds: 400, stopsDown: 2 },
    },
  ],
};

let browser: Browser;
let served: Served;
let folder: string;
let context: BrowserContext;
let page: Page;
let complaints: string[];

beforeAll(async () => {
  browser = await launch();
  folder = await mkdtemp(join(tmpdir(), "tapemark-record-"));
  await writeFile(join(folder, "stage.json"), JSON.stringify(PLAN));
  await writeFile(join(folder, "sitter.json"), JSON.stringify(SITTER));
  served = await serve(join(folder, "stage.json"));
  ({ page, context, complaints } = await openPage(browser, served.url, { bypassCSP: true }, unlit));
  await drawn(page);
  await page.getByText(/^kept \d/).waitFor();
});
afterAll(async () => {
  await context.close();
  await browser.close();
  await served.stop();
  await rm(folder, { recursive: true });
});
afterEach(() => expect(complaints).toEqual([]));

const button = (name: string) => page.getByRole("button", { name, exact: true });
const heading = (name: string) => page.getByRole("heading", { name, exact: true });

async function saved(name: string): Promise<{ download: Download; bytes: Buffer }> {
  const [download] = await Promise.all([page.waitForEvent("download"), button(name).click()]);
  return { download, bytes: await readFile(await download.path()) };
}

async function toRecord(): Promise<void> {
  await button("record and contact sheets").click();
  await heading("Record").waitFor();
}

describe("[RC17] from step 6", () => {
  test("what will be on the record is said; by keyboard, at every size, for the ear", async () => {
    await toRecord();
    await expect.poll(() => page.evaluate("document.activeElement.textContent")).toBe("Record");
    await page.getByText("No photograph was taken under this plan yet.").waitFor();
    await page.getByText("no meter readings").waitFor();
    expect(await violations(page)).toEqual([]);
    for (const [width, height] of [
      [1024, 768],
      [390, 844],
      [1440, 900],
    ]) {
      await page.setViewportSize({ width, height });
      expect(await page.evaluate("document.documentElement.scrollWidth")).toBe(width);
      const low = await page.evaluate(
        `[...document.querySelectorAll("main button")].filter((b) => b.getBoundingClientRect().height < 24).length`,
      );
      expect(low, `${width}`).toBe(0);
    }
  });
  test("the record comes as a PDF, and can be stopped", async () => {
    const { bytes, download } = await saved("record sheet, PDF");
    expect(download.suggestedFilename()).toBe("season-poster-empty-stage-record.pdf");
    expect(bytes.subarray(0, 5).toString()).toBe("%PDF-");
    await page.getByText("The record sheet is saved.").waitFor();
    await button("record sheet, PDF").click();
    await button("stop").click();
    await page.getByText("Stopped; nothing was made.").waitFor();
  });
  test("[RC19] a stage with nobody on it: why there is no contact sheet is said before anything is pressed", async () => {
    await page.getByText('Nobody is in "Season poster, empty stage"').waitFor();
    for (const name of ["show it", "PDF", "PNG"]) expect(await button(name).isDisabled(), name).toBe(true);
    await button("back to the plan").click();
    await drawn(page);
  });
});

test("[RC17] from the shoot's own page", async () => {
  await toRecord();
  await button("open this shoot").click();
  const { download } = await saved("record sheet, PDF");
  expect(download.suggestedFilename()).toBe("season-poster-empty-stage-record.pdf");
  await button("back to the plan").click();
});

test("[RC17] without the program behind the page: what there is, and how to get the rest", async () => {
  const alone = await openPage(browser, served.url, { serviceWorkers: "block" }, (bare) =>
    bare.route("**/api/open", (route) => route.fulfill({ contentType: "text/html", body: "plain files" })),
  );
  try {
    const at = alone.page;
    const [chooser] = await Promise.all([
      at.waitForEvent("filechooser"),
      at.getByRole("button", { name: "open a file" }).click(),
    ]);
    await chooser.setFiles(join(folder, "sitter.json"));
    await at.getByRole("button", { name: "record and contact sheets" }).click();
    await at.getByText("those are kept by the program that").waitFor();
    await at.getByText("PDF and PNG are made by the program").waitFor();
    expect(await at.getByRole("button", { name: "PDF" }).count()).toBe(0);
    await at.getByRole("button", { name: "show it" }).click();
    // [RC20] the frames that are finished, to the ear as well
    await at.getByRole("status").getByText("0 of 2 frames finished").waitFor({ timeout: 60_000 });
    const shown = at.getByRole("img", { name: "The contact sheet as it will be printed" });
    await shown.waitFor({ timeout: 60_000 });
    expect(await shown.locator("image").count()).toBe(2);
    const [sheet] = await Promise.all([
      at.waitForEvent("download"),
      at.getByRole("button", { name: "SVG", exact: true }).click(),
    ]);
    expect(sheet.suggestedFilename()).toMatch(/-moves\.svg$/);
  } finally {
    await alone.context.close();
  }
});
