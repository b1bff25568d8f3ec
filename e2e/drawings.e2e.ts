/** Floor and Side by hand, by finger and by key: what is held, moved, copied, mirrored, pinned and looked at. */
import { readFile, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Locator, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import {
  drawn,
  floor,
  launch,
  numbers,
  openAlone,
  type Served,
  SharedPage,
  serve,
  side,
  unlit,
} from "./start.ts";

let browser: Browser;
let served: Served;
let page: Page;
const shared = new SharedPage();
const PLAN = join(tmpdir(), `tapemark-drawings-${process.pid}.json`);

beforeAll(async () => {
  browser = await launch();
  const plan = JSON.parse(await readFile("examples/cellist.json", "utf8"));
  plan.lights.push({
    name: "rim",
    position: [5.5, 6.6, 2.2],
    direction: { at: [5.5, 4.6, 1.6] },
    face: { shape: "disc", width: 0.4 },
    output: { wattSeconds: 200, stopsDown: 4 },
  });
  plan.marks = [{ name: "second mark", position: [4.6, 6] }];
  await writeFile(PLAN, JSON.stringify(plan));
  served = await serve(PLAN);
});
afterAll(async () => {
  await browser.close();
  await served.stop();
});
beforeEach(async () => {
  ({ page } = await shared.get(() => openAlone(browser, served.url, {}, unlit)));
  // drawings wait for no reading
  await drawn(page);
});
afterEach(async ({ task }) => {
  expect(await shared.putBack(task.result?.state === "pass")).toEqual([]);
});

const on = (page: Page, name: RegExp) => floor(page).getByRole("button", { name });
/** "4.45 m" -> 4.45 */
const metres = async (field: Locator) => Number.parseFloat(await field.inputValue());
const across = (page: Page) => numbers(page).getByLabel(/^from left wall/);
const into = (page: Page) => numbers(page).getByLabel(/^from near wall/);
const undo = (page: Page) => page.getByRole("button", { name: /^undo/ });

async function placeOf(page: Page, name: RegExp): Promise<[number, number]> {
  await numbers(page).getByRole("button", { name }).first().click();
  return [await metres(across(page)), await metres(into(page))];
}

/** The paper as it lies on the screen, without the width of its line; the room is 7 m by 9 m, from the side 9 by 3.4. */
async function paperOf(sheet: Locator): Promise<{ x: number; y: number; width: number; height: number }> {
  const frame = await sheet.boundingBox();
  if (frame === null) throw new Error("no drawing");
  const paper = sheet.locator(".paper");
  const [x = 0, y = 0, width = 0, height = 0] = await Promise.all(
    ["x", "y", "width", "height"].map(async (name) => Number(await paper.getAttribute(name))),
  );
  return { x: frame.x + x, y: frame.y + y, width, height };
}

/** Where a place of the room lies on the screen. */
async function spot(page: Page, x: number, y: number): Promise<{ x: number; y: number }> {
  const paper = await paperOf(floor(page));
  return { x: paper.x + (paper.width * x) / 7, y: paper.y + paper.height * (1 - y / 9) };
}

async function drag(page: Page, from: { x: number; y: number }, to: { x: number; y: number }): Promise<void> {
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move((from.x + to.x) / 2, (from.y + to.y) / 2, { steps: 3 });
  await page.mouse.move(to.x, to.y, { steps: 3 });
  await page.mouse.up();
}

describe("several things held", () => {
  test("[AP20] a band holds what lies in it; the arrows move all of it in one step, and one undo takes it back", async () => {
    const [x, y] = await placeOf(page, /^rim/);
    const mark = await placeOf(page, /^second mark/);
    await drag(page, await spot(page, 4.2, 7.4), await spot(page, 6.5, 5.6));
    expect(await numbers(page).getByRole("heading", { level: 2 }).textContent()).toBe("2 things");
    await on(page, /^rim/).press("Shift+ArrowRight");
    expect(await placeOf(page, /^rim/)).toEqual([expect.closeTo(x + 0.1, 6), y]);
    expect(await placeOf(page, /^second mark/)).toEqual([expect.closeTo(mark[0] + 0.1, 6), mark[1]]);
    await undo(page).click();
    expect(await placeOf(page, /^rim/)).toEqual([x, y]);
    expect(await placeOf(page, /^second mark/)).toEqual(mark);
    expect(await undo(page).isDisabled()).toBe(true);
  });

  test("[AP20] Shift and a click hold another too; dragging one drags both; a click alone holds one again", async () => {
    const rim = await placeOf(page, /^rim/);
    const mark = await placeOf(page, /^second mark/);
    const at = await spot(page, rim[0], rim[1]);
    await page.mouse.click(at.x, at.y);
    const other = await spot(page, mark[0], mark[1]);
    await page.keyboard.down("Shift");
    await page.mouse.click(other.x, other.y);
    await page.keyboard.up("Shift");
    expect(await on(page, /^rim/).getAttribute("aria-pressed")).toBe("true");
    expect(await on(page, /^second mark/).getAttribute("aria-pressed")).toBe("true");
    await drag(page, at, await spot(page, rim[0] - 1, rim[1] - 0.5));
    await page.mouse.click((await spot(page, rim[0] - 1, 0)).x, (await spot(page, 0, rim[1] - 0.5)).y);
    expect(await numbers(page).getByRole("heading", { level: 2 }).textContent()).toBe("rim");
    expect([await metres(across(page)), await metres(into(page))]).toEqual([rim[0] - 1, rim[1] - 0.5]);
    expect(await placeOf(page, /^second mark/)).toEqual([
      expect.closeTo(mark[0] - 1, 6),
      expect.closeTo(mark[1] - 0.5, 6),
    ]);
  });

  test("[AP20] by keyboard alone: everything with Ctrl and A, one out and in again by its box, all let go with Escape", async () => {
    await on(page, /^key/).focus();
    await page.keyboard.press("Control+a");
    expect(await numbers(page).getByRole("heading", { level: 2 }).textContent()).toBe("10 things");
    const box = numbers(page).getByRole("checkbox", { name: /^hold V-flat, black too/ });
    await box.focus();
    await page.keyboard.press(" ");
    expect(await numbers(page).getByRole("heading", { level: 2 }).textContent()).toBe("9 things");
    expect(await box.isChecked()).toBe(false);
    await on(page, /^key/).focus();
    await page.keyboard.press("Escape");
    expect(await numbers(page).getByRole("heading", { level: 2 }).textContent()).toBe("room");
  });
});

describe("what is asked of what is held", () => {
  test("[AP23] [AP28] duplicate: the copy has a free name and is held; Delete takes it away again", async () => {
    await on(page, /^key/).focus();
    await page.keyboard.press("d");
    expect(await numbers(page).getByRole("heading", { level: 2 }).textContent()).toBe("key 2");
    expect(await metres(across(page))).toBeCloseTo(4.75, 6);
    expect(await on(page, /^key 2/).count()).toBe(1);
    await on(page, /^key 2/).focus();
    await page.keyboard.press("Delete");
    expect(await on(page, /^key 2/).count()).toBe(0);
    // the keyboard goes on working on the sheet
    expect(await page.evaluate("document.activeElement.getAttribute('aria-label')")).toMatch(/^Floor/);
  });

  test("[AP24] mirror: the key stands on the other side of the cellist, and twice is once too often", async () => {
    expect(await placeOf(page, /^key/)).toEqual([4.45, 3.55]);
    await numbers(page)
      .getByRole("button", { name: /^mirror/ })
      .click();
    expect(await metres(across(page))).toBe(2.55);
    await numbers(page)
      .getByRole("button", { name: /^mirror/ })
      .click();
    expect(await metres(across(page))).toBe(4.45);
    await numbers(page)
      .getByRole("button", { name: /^cellist/ })
      .click();
    await numbers(page)
      .getByRole("button", { name: /^mirror/ })
      .click();
    expect(
      await numbers(page)
        .getByText(/cellist is the axis/)
        .count(),
    ).toBe(1);
  });

  test("[AP25] a pin holds against hand and key, says so, and comes out again", async () => {
    const before = await placeOf(page, /^rim/);
    await numbers(page).getByRole("button", { name: /^pin/ }).click();
    expect(await on(page, /^rim, light, pinned/).count()).toBe(1);
    const at = await spot(page, ...before);
    await drag(page, at, { x: at.x - 80, y: at.y });
    expect(await numbers(page).getByText("rim is pinned and stays.").count()).toBe(1);
    await on(page, /^rim/).press("ArrowLeft");
    await on(page, /^rim/).press(".");
    await on(page, /^rim/).press("Delete");
    expect([await metres(across(page)), await metres(into(page))]).toEqual(before);
    await on(page, /^rim/).press("p");
    await on(page, /^rim/).press("ArrowLeft");
    expect(await metres(across(page))).toBeCloseTo(before[0] - 0.01, 6);
  });

  test("[AP28] Shift and comma turn ten degrees, as Shift, Alt and an arrow do", async () => {
    await on(page, /^cellist/).focus();
    const facing = numbers(page).getByLabel(/^facing/);
    await page.keyboard.press("Shift+Comma");
    expect(await facing.inputValue()).toBe("170°");
    await page.keyboard.press("Shift+Alt+ArrowRight");
    expect(await facing.inputValue()).toBe("180°");
    await page.keyboard.press(".");
    expect(await facing.inputValue()).toBe("181°");
  });
});

describe("marks and tapes", () => {
  test("[AP21] [AP22] a mark goes under the cellist; who is dragged near one steps onto it; tapes lead to it", async () => {
    await numbers(page).getByRole("button", { name: "mark", exact: true }).last().click();
    expect(await numbers(page).getByRole("heading", { level: 2 }).textContent()).toBe("mark");
    expect([await metres(across(page)), await metres(into(page))]).toEqual([3.5, 4.6]);
    await across(page).fill("3.33");
    await across(page).press("Enter");
    const cellist = await placeOf(page, /^cellist/);
    const from = await spot(page, ...cellist);
    // the shoulder: the meters lie over the head
    const grip = { x: from.x + 14, y: from.y - 2 };
    await drag(page, grip, {
      x: grip.x + (await spot(page, 4.64, 0)).x - from.x,
      y: grip.y + (await spot(page, 0, 5.97)).y - from.y,
    });
    expect([await metres(across(page)), await metres(into(page))]).toEqual([4.6, 6]);
    await on(page, /^key/).focus();
    const tapes = await floor(page).locator(".tapes text").allTextContents();
    // sqrt((4.45 - 3.33)^2 + (3.55 - 4.6)^2) = 1.535
    expect(tapes).toContain("mark 1.54 m");
    expect(tapes.filter((text) => text.startsWith("face"))).toHaveLength(1);
  });
});

describe("nearer and farther", () => {
  const scale = async (page: Page) => {
    const { width, height } = await paperOf(floor(page));
    return [width / 7, height / 9] as const;
  };
  test("[AP26] the wheel brings nearer what is under it, on both axes alike; the drag is still true; fit shows the whole", async () => {
    const rim = await placeOf(page, /^rim/);
    const at = await spot(page, ...rim);
    const [whole] = await scale(page);
    await page.mouse.move(at.x, at.y);
    for (let turn = 0; turn < 4; turn++) await page.mouse.wheel(0, -200);
    await expect.poll(async () => (await scale(page))[0]).toBeGreaterThan(whole * 3);
    const [a, b] = await scale(page);
    expect(a).toBeCloseTo(b, 4);
    const now = await spot(page, ...rim);
    // a wheel is told in whole pixels: half a pixel off, seen more than three times as large
    expect(Math.hypot(now.x - at.x, now.y - at.y)).toBeLessThan(2.5);
    // half a metre to the left is half a metre at this scale
    await drag(page, now, { x: now.x - 0.5 * a, y: now.y });
    expect(await metres(across(page))).toBeCloseTo(rim[0] - 0.5, 6);
    await page.getByRole("button", { name: "fit Floor" }).click();
    expect((await scale(page))[0]).toBeCloseTo(whole, 4);
  });

  test("[AP26] keys and space: + nearer, arrows and a drag with the space bar move the paper, 0 shows the whole", async () => {
    const [whole] = await scale(page);
    await floor(page).focus();
    await page.keyboard.press("+");
    await page.keyboard.press("+");
    await expect.poll(async () => (await scale(page))[0]).toBeCloseTo(whole * 2.25, 3);
    const left = async () => (await paperOf(floor(page))).x;
    const before = await left();
    await page.keyboard.press("ArrowRight");
    await expect.poll(left).toBeCloseTo(before - 60, 3);
    const middle = await floor(page).boundingBox();
    if (middle === null) throw new Error("no floor");
    const from = { x: middle.x + 200, y: middle.y + 300 };
    await page.mouse.move(from.x, from.y);
    await page.keyboard.down(" ");
    await drag(page, from, { x: from.x + 40, y: from.y });
    await page.keyboard.up(" ");
    await expect.poll(left).toBeCloseTo(before - 20, 3);
    await page.keyboard.press("0");
    await expect.poll(async () => (await scale(page))[0]).toBeCloseTo(whole, 4);
    expect(await undo(page).isDisabled()).toBe(true);
  });

  test("[AP26] the Side has its own", async () => {
    const wide = async () => (await paperOf(side(page))).width;
    const whole = await wide();
    const [floorScale] = await scale(page);
    await page.getByRole("button", { name: "larger, Side" }).click();
    await expect.poll(wide).toBeCloseTo(whole * 1.5, 3);
    expect((await scale(page))[0]).toBe(floorScale);
    await page.getByRole("button", { name: "fit Side" }).click();
    await expect.poll(wide).toBeCloseTo(whole, 3);
  });
});

describe("fingers", () => {
  test("[AP27] on a phone: one finger drags, two bring nearer, buttons nudge by 1 cm and 10 cm", async () => {
    const { page, context, complaints } = await openAlone(
      browser,
      served.url,
      { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true },
      // what comes later would move the sheet under the finger
      unlit,
    );
    await drawn(page);
    await floor(page).scrollIntoViewIfNeeded();
    const finger = await context.newCDPSession(page);
    const touch = (type: "touchStart" | "touchMove" | "touchEnd", ...points: { x: number; y: number }[]) =>
      finger.send("Input.dispatchTouchEvent", {
        type,
        touchPoints: points.map((point, id) => ({ ...point, id })),
      });
    const at = await spot(page, 5.5, 6.6);
    await touch("touchStart", at);
    for (const step of [10, 25, 40]) await touch("touchMove", { x: at.x, y: at.y + step });
    await touch("touchEnd");
    expect(await on(page, /^rim/).getAttribute("aria-pressed")).toBe("true");
    const pad = page.getByRole("region", { name: "Nudge rim" });
    const moved = await metres(into(page));
    expect(moved).toBeLessThan(6.2);
    // a tap right after a flick only ends the flick
    await new Promise((resolve) => setTimeout(resolve, 700));
    await pad.getByRole("button", { name: "1 cm to the left" }).tap();
    await expect.poll(() => metres(across(page))).toBeCloseTo(5.49, 6);
    await pad.getByRole("button", { name: "10 cm", exact: true }).tap();
    await pad.getByRole("button", { name: "10 cm into the set" }).tap();
    await pad.getByRole("button", { name: "higher by 10 cm" }).tap();
    await expect.poll(() => metres(into(page))).toBeCloseTo(moved + 0.1, 6);
    await expect.poll(() => metres(numbers(page).getByLabel(/^height/))).toBeCloseTo(2.3, 6);

    const wide = async () => (await paperOf(floor(page))).width;
    const whole = await wide();
    const middle = await spot(page, 3.5, 3);
    const pair = (apart: number) => [
      { x: middle.x - apart, y: middle.y },
      { x: middle.x + apart, y: middle.y },
    ];
    const scrolled = await page.evaluate("scrollY");
    await touch("touchStart", ...pair(30));
    for (const apart of [40, 50, 60]) await touch("touchMove", ...pair(apart));
    await touch("touchEnd");
    await expect.poll(wide).toBeCloseTo(whole * 2, 0);
    expect(await page.evaluate("scrollY")).toBe(scrolled);
    await pad.getByRole("button", { name: "let go" }).tap();
    expect(await pad.count()).toBe(0);
    expect(complaints).toEqual([]);
    await context.close();
  });
});
