/** The main job by hand: what is drawn, dragged, typed and read. */
import { readFile } from "node:fs/promises";
import type { Browser } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import {
  floor,
  launch,
  line,
  numbers,
  type Opened,
  openAlone,
  pattern,
  picture,
  read,
  type Served,
  SharedPage,
  serve,
  settled,
  side,
  untried,
} from "./start.ts";

let browser: Browser;
let served: Served;
let opened: Opened;
const shared = new SharedPage();

beforeAll(async () => {
  browser = await launch();
  served = await serve("examples/cellist.json");
});
afterAll(async () => {
  await browser.close();
  await served.stop();
});
beforeEach(async () => {
  opened = await shared.get(() => openAlone(browser, served.url, {}, untried));
  await read(opened.page);
});
afterEach(async ({ task }) => {
  expect(await shared.putBack(task.result?.state === "pass")).toEqual([]);
});

const ratio = () => line(opened.page, "cheek to cheek").textContent();

async function dragKey(byAcross: number, byDown: number): Promise<void> {
  const { page } = opened;
  const front = await floor(page).locator('[data-owner="lights[0]"] .front').boundingBox();
  if (front === null) throw new Error("the key is not drawn");
  const x = front.x + front.width / 2;
  const y = front.y + front.height / 2;
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let step = 1; step <= 8; step++) {
    await page.mouse.move(x + (byAcross * step) / 8, y + (byDown * step) / 8);
    await page.waitForTimeout(30);
  }
  await page.mouse.up();
}

describe("the workbench", () => {
  test("[AP1] the demo opens computed: pattern, meter, headroom and a picture that is not blank", async () => {
    const { page } = opened;
    await settled(page);
    expect(await pattern(page).textContent()).toMatch(/^(Loop|Rembrandt|Butterfly|Split)$/);
    expect(await line(page, "at the chin").textContent()).toMatch(/f\/\d+(\.\d)? \+ 0\.\d/);
    expect(await line(page, "to clipping").textContent()).toMatch(/\d\.\d stops?/);
    expect((await picture(page)).levels).toBeGreaterThan(40);
    expect(await page.locator("canvas.picture").getAttribute("aria-label")).toContain("f/8 + 0.0");
    expect(await floor(page).locator(".power-layer path").count()).toBeGreaterThan(3);
    const ticks = await floor(page).locator(".direction-layer path").first().getAttribute("d");
    expect(ticks?.split("M").length).toBeGreaterThan(20);
  });

  test("[AP14] nobody but its own server is asked for anything", async () => {
    await settled(opened.page);
    const { origin } = new URL(served.url);
    expect(opened.asked.length).toBeGreaterThan(3);
    expect(
      opened.asked.filter((address) => !address.startsWith(origin) && !address.startsWith("blob:")),
    ).toEqual([]);
  });

  test("[AP5] [AP15] dragging the key changes reading and frame; undo takes the whole drag back, redo brings it again", async () => {
    const { page } = opened;
    await settled(page);
    const before = { ratio: await ratio(), picture: (await picture(page)).sum };
    await dragKey(70, 40);
    await settled(page);
    const after = { ratio: await ratio(), picture: (await picture(page)).sum };
    expect(after.ratio).not.toBe(before.ratio);
    expect(after.picture).not.toBe(before.picture);
    const across = numbers(page).getByLabel(/^from left wall/);
    const moved = await across.inputValue();
    expect(moved).not.toBe("4.45 m");
    // snapped to 5 cm
    expect(Math.round(Number.parseFloat(moved) * 100) % 5).toBe(0);
    await page.getByRole("button", { name: /^undo/ }).click();
    await settled(page);
    expect(await across.inputValue()).toBe("4.45 m");
    expect({ ratio: await ratio(), picture: (await picture(page)).sum }).toEqual(before);
    expect(await page.getByRole("button", { name: /^undo/ }).isDisabled()).toBe(true);
    await page.getByRole("button", { name: /^redo/ }).click();
    await settled(page);
    expect({ ratio: await ratio(), picture: (await picture(page)).sum }).toEqual(after);
  });

  test("[AP5] while dragging, the reading follows before the hand lets go", async () => {
    const { page } = opened;
    await settled(page);
    const front = await floor(page).locator('[data-owner="lights[0]"] .front').boundingBox();
    if (front === null) throw new Error("the key is not drawn");
    const before = await ratio();
    await page.mouse.move(front.x + front.width / 2, front.y + front.height / 2);
    await page.mouse.down();
    await page.mouse.move(front.x + front.width / 2 + 90, front.y + front.height / 2 + 30, { steps: 3 });
    await expect.poll(ratio, { timeout: 3000 }).not.toBe(before);
    await page.mouse.up();
  });

  test("[AP7] the aim is turned by its handle, and the bearing's number follows", async () => {
    const { page } = opened;
    await floor(page)
      .getByRole("button", { name: /^cellist/ })
      .focus();
    const knob = await floor(page).locator(".aim .knob").boundingBox();
    if (knob === null) throw new Error("no handle");
    await page.mouse.move(knob.x + 5, knob.y + 5);
    await page.mouse.down();
    await page.mouse.move(knob.x + 45, knob.y - 5, { steps: 4 });
    await page.mouse.up();
    const facing = await numbers(page)
      .getByLabel(/^facing/)
      .inputValue();
    expect(facing).not.toBe("180°");
    expect(Number.parseFloat(facing) % 5).toBe(0);
  });

  test("[AP7] typed numbers: taken, refused with the reason, and the old value kept", async () => {
    const { page } = opened;
    await side(page).getByRole("button", { name: /^key/ }).focus();
    const height = numbers(page).getByLabel(/^height/);
    await height.fill("210cm");
    await height.press("Enter");
    expect(await height.inputValue()).toBe("2.10 m");
    await height.fill("high");
    await height.press("Enter");
    expect(await numbers(page).getByRole("alert").textContent()).toMatch(/no length.*Kept 2\.10 m/s);
    await height.press("Escape");
    expect(await height.inputValue()).toBe("2.10 m");
    await height.fill("9");
    await height.press("Enter");
    expect(await numbers(page).getByRole("alert").textContent()).toContain("outside the room");
    await height.press("Escape");
    const aperture = page.getByLabel("aperture");
    await aperture.fill("8.4");
    await aperture.press("Enter");
    expect(await page.getByRole("group", { name: /two ways/ }).count()).toBe(1);
    await page.keyboard.press("Escape");
  });

  test("[AP7] one stop less light at the lens is one stop more headroom; one stop of power takes it back", async () => {
    const { page } = opened;
    await settled(page);
    const headroom = async () =>
      Number.parseFloat((await line(page, "to clipping").locator(".middle").textContent()) ?? "");
    const before = await headroom();
    const aperture = page.getByLabel("aperture");
    await aperture.fill("f/11 + 0.0");
    await aperture.press("Enter");
    await settled(page);
    // tenths are shown: a stop is a stop within the rounding of both
    expect(await headroom()).toBeCloseTo(before + 1, 1);
    await floor(page).getByRole("button", { name: /^key/ }).focus();
    const power = numbers(page).getByRole("textbox", { name: /^power/ });
    const stops = Number.parseFloat((await power.inputValue()).replace("−", "-"));
    await power.fill(String(stops + 1));
    await power.press("Enter");
    await settled(page);
    expect(await headroom()).toBeCloseTo(before, 1);
  });

  test("[AP10] power and direction are shown together, apart, or not at all; their height can be set", async () => {
    const { page } = opened;
    await settled(page);
    const power = page.getByRole("button", { name: "power", exact: true });
    const direction = page.getByRole("button", { name: "direction it comes from" });
    const shown = async () => [
      await floor(page).locator(".power-layer").count(),
      await floor(page).locator(".direction-layer").count(),
    ];
    expect(await shown()).toEqual([1, 1]);
    await power.click();
    expect(await shown()).toEqual([0, 1]);
    await direction.click();
    expect(await shown()).toEqual([0, 0]);
    await power.click();
    await settled(page);
    expect(await shown()).toEqual([1, 0]);
    const lines = () => floor(page).locator(".power-layer path").first().getAttribute("d");
    const atFace = await lines();
    const height = page.getByLabel(/^at height/);
    await height.fill("0.3");
    await height.press("Enter");
    await settled(page);
    expect(await height.inputValue()).toBe("0.30 m");
    expect(await floor(page).locator(".power-layer path").count()).toBeGreaterThan(0);
    expect(await lines()).not.toBe(atFace);
    await page.getByRole("button", { name: "at the face" }).click();
    await direction.click();
  });

  test("[AP4] the probe reads exposure and direction where it stands, and names its receptor", async () => {
    const { page } = opened;
    await settled(page);
    await page.getByRole("button", { name: "probe", exact: true }).click();
    const probe = floor(page).getByRole("button", { name: /^Probe at/ });
    const before = await probe.getAttribute("aria-label");
    expect(before).toMatch(
      /f\/\d+(\.\d)? \+ 0\.\d · [+−]?\d\.\d stops, from \d+°, \d+° (up|down), dome turned to the light/,
    );
    await probe.press("Shift+ArrowRight");
    await probe.press("Shift+ArrowRight");
    await expect.poll(() => probe.getAttribute("aria-label")).not.toBe(before);
    await probe.press("Escape");
    await expect.poll(() => probe.count()).toBe(0);
  });

  test("[AP12] feet and inches at a touch", async () => {
    const { page } = opened;
    await floor(page).getByRole("button", { name: /^key/ }).focus();
    await page.getByRole("button", { name: "feet", exact: true }).click();
    expect(
      await numbers(page)
        .getByLabel(/^height/)
        .inputValue(),
    ).toBe("8′ ½″");
    expect(await page.getByRole("button", { name: "feet", exact: true }).getAttribute("aria-pressed")).toBe(
      "true",
    );
    await page.getByRole("button", { name: "metres", exact: true }).click();
  });

  test("[AP1] the clipping overlay paints what clips and only then", async () => {
    const { page } = opened;
    const iso = page.getByRole("textbox", { name: "ISO" });
    await iso.fill("800");
    await iso.press("Enter");
    await settled(page);
    expect(await line(page, "over, skin clips").count()).toBe(1);
    const plain = (await picture(page)).sum;
    await page.getByRole("button", { name: "clipping" }).click();
    const sum = async () => (await picture(page)).sum;
    await expect.poll(sum).not.toBe(plain);
    await page.getByRole("button", { name: "clipping" }).click();
    await expect.poll(sum).toBe(plain);
  });

  test("[AP9] the sheet and the plan are made as files", async () => {
    // the hold zone is on the sheet
    const { page, context } = await openAlone(browser, served.url);
    await settled(page);
    const [plan] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "save", exact: true }).click(),
    ]);
    expect(plan.suggestedFilename()).toBe("cellist-season-poster.json");
    const [sheet] = await Promise.all([
      // how far to drift, and what small moves do, are worked out for it
      page.waitForEvent("download", { timeout: 60_000 }),
      page.getByRole("button", { name: "SVG", exact: true }).click(),
    ]);
    expect(sheet.suggestedFilename()).toMatch(/^cellist-season-poster-sheet.*\.svg$/);
    expect(await readFile(await sheet.path(), "utf8")).toContain("<image ");
    const [pdf] = await Promise.all([
      // the server works everything out itself
      page.waitForEvent("download", {
        timeout: 60_000,
        // the other pages of the SVG may still come
        predicate: (download) => download.suggestedFilename().endsWith(".pdf"),
      }),
      page.getByRole("button", { name: "PDF", exact: true }).click(),
    ]);
    expect(pdf.suggestedFilename()).toBe("cellist-season-poster-sheet.pdf");
    await context.close();
  });
});
