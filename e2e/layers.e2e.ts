/** Power and direction on both sheets, and the probe that reads them. */
import type { Browser, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import {
  floor,
  launch,
  openAlone,
  openPage,
  type Served,
  SharedPage,
  serve,
  settled,
  side,
  untried,
} from "./start.ts";

let browser: Browser;
let served: Served;
let page: Page;
const shared = new SharedPage();

beforeAll(async () => {
  browser = await launch();
  served = await serve("examples/cellist.json");
});
afterAll(async () => {
  await browser.close();
  await served.stop();
});
/** The demo, worked out to the end. */
beforeEach(async () => {
  ({ page } = await shared.get(() => openAlone(browser, served.url, {}, untried)));
  await settled(page);
});
afterEach(async ({ task }) => {
  expect(await shared.putBack(task.result?.state === "pass")).toEqual([]);
});

/** What is drawn has no roles: it is said in words elsewhere. */
const lines = (sheet: ReturnType<typeof floor>) => sheet.locator(".power-layer path");
/** How many ticks are drawn; they are one line. */
const ticks = async (sheet: ReturnType<typeof floor>) => {
  const line = sheet.locator(".direction-layer path").first();
  return (await line.count()) === 0 ? 0 : ((await line.getAttribute("d")) ?? "").split("M").length - 1;
};
const shapes = async (sheet: ReturnType<typeof floor>) =>
  (await lines(sheet).evaluateAll((all) => all.map((path) => path.getAttribute("d")))).join();
/** The lines once they no longer change. */
async function still(sheet: ReturnType<typeof floor>): Promise<string> {
  for (;;) {
    const before = await shapes(sheet);
    await sheet.page().waitForTimeout(700);
    if ((await shapes(sheet)) === before) return before;
  }
}
const slip = (sheet: ReturnType<typeof floor>) => sheet.locator(".slip text");
const stopsOf = (words: string) => Number(/([−+]?\d+\.\d) stops/.exec(words)?.[1]?.replace("−", "-"));

async function spot(sheet: ReturnType<typeof floor>, across: number, down: number) {
  const box = await sheet.locator(".paper").boundingBox();
  if (box === null) throw new Error("no paper");
  return { x: box.x + across * box.width, y: box.y + down * box.height };
}

/** Keeps what changes in the Floor's drawing from then on. */
const WATCH = `{
  window.changed = new Set();
  new MutationObserver((all) => {
    for (const { target } of all) {
      if (target.nodeType === 1)
        window.changed.add(target.closest(".probe") === null ? target.outerHTML.slice(0, 60) : "probe");
    }
  }).observe(document.querySelector(".drawing svg"), { subtree: true, childList: true, attributes: true });
}`;

describe("the layers", () => {
  test("[AP30] Floor and Side each have both, and neither when they are switched off", async () => {
    const counts = async () => [
      await lines(floor(page)).count(),
      await ticks(floor(page)),
      await lines(side(page)).count(),
      await ticks(side(page)),
    ];
    for (const count of await counts()) expect(count).toBeGreaterThan(4);
    const power = page.getByRole("button", { name: "power", exact: true });
    const direction = page.getByRole("button", { name: "direction it comes from" });
    await power.click();
    await expect.poll(counts).toMatchObject([0, expect.any(Number), 0, expect.any(Number)]);
    expect((await counts())[3]).toBeGreaterThan(4);
    await direction.click();
    await expect.poll(counts).toEqual([0, 0, 0, 0]);
    // nothing to read where nothing is asked for
    expect(await page.getByRole("button", { name: /^probe/ }).count()).toBe(0);
    await power.click();
    await settled(page);
    await expect.poll(async () => (await counts())[0]).toBeGreaterThan(4);
    expect((await counts())[1]).toBe(0);
    await direction.click();
  });

  test("[AP30] the Side's layers stand where they are put, and go back to the person", async () => {
    const before = [await still(floor(page)), await still(side(page))];
    const place = page.getByLabel("from left wall, layers of Side");
    expect(await place.inputValue()).toBe("3.50 m");
    await place.fill("1.2");
    await place.press("Enter");
    await expect.poll(async () => (await shapes(side(page))) === before[1], { timeout: 20_000 }).toBe(false);
    expect((await still(floor(page))) === before[0]).toBe(true);
    await place.fill("9");
    await place.press("Enter");
    expect(await page.getByRole("alert").textContent()).toContain("between 0.00 m and 7.00 m");
    await place.press("Escape");
    await page.getByRole("button", { name: "through the cellist" }).click();
    await expect.poll(async () => (await shapes(side(page))) === before[1], { timeout: 20_000 }).toBe(true);
    expect(await place.inputValue()).toBe("3.50 m");
  });

  test("[AP31] stops are counted from the face or from a meter, by name", async () => {
    const group = await serve("examples/group.json");
    try {
      const { page, context, complaints } = await openPage(browser, group.url);
      await settled(page);
      const from = page.getByLabel(/stops from/);
      expect(await from.locator("option").allTextContents()).toEqual([
        "the first violin's face",
        "the left end meter",
        "the right end meter",
      ]);
      await page.getByRole("button", { name: "probe", exact: true }).click();
      const probe = floor(page).getByRole("button", { name: /^Probe at/ });
      const told = async (meter: string, not: string) => {
        await from.selectOption(meter);
        await expect.poll(() => probe.getAttribute("aria-label"), { timeout: 20_000 }).not.toBe(not);
        await still(floor(page));
        return (await probe.getAttribute("aria-label")) ?? "";
      };
      await still(floor(page));
      const right = await told("the right end meter", (await probe.getAttribute("aria-label")) ?? "");
      const left = await told("the left end meter", right);
      // the same exposure and direction; fewer stops above the end that is nearer the light
      const exposure = (words: string) => /f\/\d+(\.\d)? \+ 0\.\d/.exec(words)?.[0];
      expect(exposure(right)).toBe(exposure(left));
      expect(stopsOf(right)).toBeLessThan(stopsOf(left));
      expect(complaints).toEqual([]);
      await context.close();
    } finally {
      await group.stop();
    }
  });

  test("[AP34] no number lies on another, on a name, or outside the paper, on either sheet", async () => {
    for (const sheet of [floor(page), side(page)]) {
      const boxes = await sheet.evaluate((svg) => {
        const of = (selector: string) =>
          [...svg.querySelectorAll(selector)].map((node) => {
            const { left, right, top, bottom } = node.getBoundingClientRect();
            return { left, right, top, bottom, text: node.textContent };
          });
        return { numbers: of(".layer-notes text"), names: of(".label"), paper: of(".paper") };
      });
      expect(boxes.numbers.length).toBeGreaterThan(4);
      const [paper] = boxes.paper;
      boxes.numbers.forEach((a, index) => {
        expect(a.left >= (paper?.left ?? 0) && a.right <= (paper?.right ?? 0), `${a.text} inside`).toBe(true);
        for (const b of [...boxes.numbers.slice(index + 1), ...boxes.names]) {
          const apart =
            a.right <= b.left || b.right <= a.left || a.bottom <= b.top + 3 || b.bottom <= a.top + 3;
          expect(apart, `${a.text} and ${b.text}`).toBe(true);
        }
      });
    }
  });
});

describe("the probe", () => {
  test("[AP37] reads where the pointer is, on both sheets, and stays where it is pressed", async () => {
    for (const sheet of [floor(page), side(page)]) {
      const away = await spot(sheet, 0.12, 0.35);
      await page.mouse.move(away.x, away.y);
      await expect.poll(() => slip(sheet).allTextContents()).toHaveLength(3);
      const [power, direction, receptor] = await slip(sheet).allTextContents();
      expect(power).toMatch(/^f\/\d+(\.\d)? \+ 0\.\d · [−+]?\d+\.\d stops$/);
      expect(direction).toMatch(/^from \d+°, \d+° (up|down)$/);
      expect(receptor).toBe("dome turned to the light");
      const near = await spot(sheet, 0.4, 0.6);
      await page.mouse.move(near.x, near.y);
      await expect.poll(() => slip(sheet).first().textContent()).not.toBe(power);
      await page.mouse.move(away.x, away.y);
      await page.mouse.down();
      await page.mouse.up();
      await page.mouse.move(5, 5);
      const pin = sheet.getByRole("button", { name: /^Probe at/ });
      expect(await pin.getAttribute("aria-label")).toContain(direction);
      expect(await slip(sheet).first().textContent()).toBe(power);
      // by hand, then by keys
      await page.mouse.move(away.x, away.y);
      await page.mouse.down();
      await page.mouse.move(near.x, near.y, { steps: 3 });
      await page.mouse.up();
      await page.mouse.move(5, 5);
      expect(await slip(sheet).first().textContent()).not.toBe(power);
      const moved = await pin.getAttribute("aria-label");
      await pin.focus();
      await pin.press("Shift+ArrowLeft");
      await expect.poll(() => pin.getAttribute("aria-label")).not.toBe(moved);
      expect(await page.getByRole("status").textContent()).toMatch(/^f\/.* stops, from .*, dome turned/);
      await pin.press("Escape");
      await expect.poll(() => pin.count()).toBe(0);
      expect(await slip(sheet).count()).toBe(0);
    }
  });

  test("[AP37] a tap sets it, and the bar takes it away", async () => {
    const phone = { viewport: { width: 390, height: 844 }, hasTouch: true };
    const { page, context, complaints } = await openAlone(browser, served.url, phone);
    await settled(page);
    await side(page).scrollIntoViewIfNeeded();
    const at = await spot(side(page), 0.1, 0.3);
    await page.touchscreen.tap(at.x, at.y);
    await side(page)
      .getByRole("button", { name: /^Probe at 3\.50 m across: f\// })
      .waitFor();
    const button = page.getByRole("button", { name: "probe, Side" });
    expect(await button.getAttribute("aria-pressed")).toBe("true");
    await button.tap();
    expect(
      await side(page)
        .getByRole("button", { name: /^Probe at/ })
        .count(),
    ).toBe(0);
    expect(complaints).toEqual([]);
    await context.close();
  });

  test("[AP39] a moving pointer redraws the probe alone", async () => {
    await page.evaluate(WATCH);
    for (const across of [0.2, 0.3, 0.4, 0.5]) {
      const { x, y } = await spot(floor(page), across, 0.8);
      await page.mouse.move(x, y);
    }
    await expect.poll(() => slip(floor(page)).count()).toBe(3);
    const changed = await page.evaluate("[...window.changed]");
    expect(changed).toEqual(["probe"]);
  });
});
