/** Guess, then see; the two pages that explain; the drawings of the Reading. */
import type { Browser, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import {
  floor,
  launch,
  numbers,
  type Opened,
  openAlone,
  pattern,
  read,
  type Served,
  SharedPage,
  serve,
  settled,
  violations,
} from "./start.ts";

let browser: Browser;
let served: Served;
let opened: Opened;

beforeAll(async () => {
  browser = await launch();
  served = await serve("examples/cellist.json");
});
afterAll(async () => {
  await browser.close();
  await served.stop();
});
const shared = new SharedPage();

beforeEach(async () => {
  opened = await shared.get(() => openAlone(browser, served.url, { bypassCSP: true }));
  await read(opened.page);
});
afterEach(async ({ task }) => {
  const { page } = opened;
  const passed = task.result?.state !== "fail";
  if (passed) {
    await page.setViewportSize(SIZES[0]);
    await page.emulateMedia({ colorScheme: null });
    for (const leave of [button(page, "back to the plan"), button(page, "end")])
      if (await leave.isVisible()) await leave.click();
  }
  expect(await shared.putBack(passed)).toEqual([]);
});

const button = (page: Page, name: string | RegExp) =>
  page.getByRole("button", typeof name === "string" ? { name, exact: true } : { name });
const guess = (page: Page) => page.getByRole("region", { name: "Guess, then see" });
const mark = (page: Page) => page.getByRole("slider", { name: /tip of the nose/ });
const said = (page: Page) => page.getByRole("status").textContent();

/** Everything that is said from now on. */
const HEAR = `(() => {
  globalThis.heard = [];
  const status = document.querySelector("[role=status]");
  const note = () => heard.push(status.textContent);
  new MutationObserver(note).observe(status, { childList: true, characterData: true, subtree: true });
})()`;

async function sidewaysOf(page: Page): Promise<number> {
  return page.evaluate("document.documentElement.scrollWidth - innerWidth");
}

const SIZES = [
  { width: 1440, height: 900 },
  { width: 1024, height: 768 },
  { width: 390, height: 844 },
];

describe("guess, then see", () => {
  test("[AP72] [AP73] [AP74] everything that tells is put away; compared, the guess stands beside what is", async () => {
    const { page } = opened;
    await settled(page);
    await button(page, "guess").click();
    await guess(page).waitFor();
    expect(await page.locator("canvas").count()).toBe(0);
    expect(await pattern(page).count()).toBe(0);
    expect(await floor(page).locator(".power-layer, .direction-layer").count()).toBe(0);
    const whole = () => page.locator("body").textContent();
    expect(await whole()).not.toMatch(/Rembrandt|f\/8 \+ 0\.1|f\/5\.6 \+ 0\.8/);
    expect(await button(page, "compare").isDisabled()).toBe(true);
    // a change of the plan is worked out, and not told
    await floor(page).getByRole("button", { name: /^key/ }).focus();
    await page.keyboard.press("ArrowRight");
    await page.waitForTimeout(2500);
    expect(await said(page)).toBe("");
    expect(await numbers(page).textContent()).not.toContain("at the chin");
    await page.keyboard.press("Control+z");
    // by keys, said in words
    await mark(page).focus();
    expect(await mark(page).getAttribute("aria-valuetext")).toBe("not placed");
    await page.keyboard.press("Shift+ArrowLeft");
    await page.keyboard.press("ArrowLeft");
    await page.keyboard.press("ArrowDown");
    expect(await mark(page).getAttribute("aria-valuetext")).toBe("6 mm to own right, 1 mm down");
    // by pointer: two drawn millimetres across for each pixel step are no matter, that it follows is
    const box = await page.getByRole("group", { name: "The face from straight ahead" }).boundingBox();
    if (box === null) throw new Error("no face");
    await page.mouse.move(box.x + box.width / 2, box.y + box.height * 0.7);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width * 0.4, box.y + box.height * 0.68, { steps: 4 });
    await page.mouse.up();
    expect(await mark(page).getAttribute("aria-valuetext")).toMatch(/^\d+ mm to own right, \d+ mm down$/);
    const field = page.getByLabel("f-number at the chin, a flat receptor");
    await field.fill("8.4");
    await field.press("Enter");
    await guess(page)
      .getByRole("group", { name: /8\.4.*two ways/ })
      .waitFor();
    await page.keyboard.press("Escape");
    await field.fill("f/5.6 + 0.1");
    await field.press("Enter");
    // the reading that is shown again is said after it
    await page.evaluate(HEAR);
    await button(page, "compare").click();
    await expect.poll(() => guess(page).textContent(), { timeout: 20_000 }).toContain("1.0 stop under");
    const told = await guess(page).textContent();
    // the demo's light is Rembrandt's: its shadow joins the dark cheek
    expect(told).toContain("No tip");
    expect(told).toContain("guessed f/5.6 + 0.1; read f/8 + 0.1 at the chin, a flat receptor");
    // said once it is painted
    await expect.poll(() => page.evaluate("heard.join()")).toContain("1.0 stop under");
    expect(await pattern(page).textContent()).toBe("Rembrandt");
    expect(await page.locator("canvas").count()).toBeGreaterThan(0);
    await button(page, "ask again").click();
    expect(await mark(page).getAttribute("aria-valuetext")).toBe("not placed");
    await button(page, "end").click();
    expect(await guess(page).count()).toBe(0);
    await settled(page);
  });

  test("[AP75] next carries the key and asks again; its shadow is drawn where it falls; undo takes it back", async () => {
    const { page } = opened;
    await settled(page);
    const across = numbers(page).getByLabel(/^from left wall/);
    await floor(page).getByRole("button", { name: /^key/ }).focus();
    const place = await across.inputValue();
    await button(page, "guess").click();
    const make = async () => {
      await button(page, /^none: it has no tip/).click();
      const field = page.getByLabel(/^f-number at the chin/);
      await field.fill("f/8");
      await field.press("Enter");
      await button(page, "compare").click();
      await expect.poll(() => guess(page).textContent(), { timeout: 20_000 }).toMatch(/the nose’s shadow/);
    };
    await make();
    expect(await guess(page).textContent()).toContain("Right");
    await button(page, /^next/).click();
    await mark(page).waitFor();
    expect(await across.inputValue()).not.toBe(place);
    // loop, from own right: the shadow has a tip
    await make();
    expect(await guess(page).textContent()).toMatch(
      /It has a tip[\s\S]*falls \d+ mm to own left, \d+ mm down/,
    );
    await button(page, /^undo next question: key carried round/).click();
    expect(await across.inputValue()).toBe(place);
  });

  test.each(SIZES)("[AP72] at $width × $height nothing is cut off, and axe finds nothing", async (size) => {
    const { page } = opened;
    await page.setViewportSize(size);
    // on a narrow screen it is folded away
    if (size.width < 1200) await page.getByText("more", { exact: true }).click();
    await button(page, "guess").click();
    await mark(page).focus();
    await page.keyboard.press("Shift+ArrowLeft");
    expect(await sidewaysOf(page)).toBeLessThanOrEqual(0);
    const box = await page.getByRole("group", { name: "The face from straight ahead" }).boundingBox();
    expect(box && box.x >= 0 && box.x + box.width <= size.width && box.height > 250).toBe(true);
    expect(await violations(page)).toEqual([]);
  });
});

describe("the pages", () => {
  const cell = (page: Page, name: string, column = 0) =>
    page.getByRole("row", { name }).getByRole("cell").nth(column).textContent();
  const worked = async (page: Page) =>
    expect.poll(() => cell(page, "pattern", 1), { timeout: 30_000 }).toMatch(/Loop|Butterfly/);

  test("[AP76] [AP77] direction: a stop nearer keeps the pattern; 10° round moves the shadow; a task tells itself", async () => {
    const { page } = opened;
    await button(page, "direction").click();
    await page.getByRole("heading", { name: "Direction", level: 1 }).waitFor();
    await worked(page);
    const shadow = await cell(page, "nose’s shadow");
    expect(shadow).toMatch(/mm to own right, \d+ mm down/);
    await button(page, "a stop nearer").click();
    await expect.poll(() => cell(page, "light from the face"), { timeout: 20_000 }).toBe("0.86 m");
    // where it stands is told at once, its light when it has been worked out
    await expect
      .poll(() => cell(page, "at the face"), { timeout: 20_000 })
      .not.toBe(await cell(page, "at the face", 1));
    expect(await cell(page, "pattern")).toBe("Loop");
    await button(page, "10° to own right").click();
    await expect.poll(() => cell(page, "comes from"), { timeout: 20_000 }).toMatch(/^24° to own left/);
    await expect.poll(() => cell(page, "nose’s shadow"), { timeout: 20_000 }).not.toBe(shadow);
    await button(page, "10° to own left").click();
    await button(page, "10° to own left").click();
    await expect.poll(() => cell(page, "pattern"), { timeout: 20_000 }).toBe("Rembrandt");
    await page
      .getByRole("listitem")
      .filter({ hasText: "Rembrandt" })
      .getByText("Done.", { exact: true })
      .waitFor();
    await button(page, "as at first").click();
    await expect.poll(() => cell(page, "pattern"), { timeout: 20_000 }).toBe("Loop");
    expect(await page.getByText("Done.", { exact: true }).count()).toBe(1);
  });

  test("[AP76] the light is dragged on the small floor; Escape leads back to the plan, which is as it was", async () => {
    const { page } = opened;
    await button(page, "direction").click();
    await worked(page);
    const front = await floor(page).locator('[data-owner="lights[0]"] .front').boundingBox();
    if (front === null) throw new Error("the light is not drawn");
    const [x, y] = [front.x + front.width / 2, front.y + front.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x - 60, y + 30, { steps: 4 });
    await page.mouse.up();
    await expect
      .poll(() => cell(page, "comes from"), { timeout: 20_000 })
      .not.toBe(await cell(page, "comes from", 1));
    // the first lets go of the light
    await page.keyboard.press("Escape");
    await page.keyboard.press("Escape");
    await settled(page);
    expect(await button(page, /^undo/).isDisabled()).toBe(true);
    expect(await pattern(page).textContent()).toBe("Rembrandt");
  });

  test("[AP78] power: the law and the meter part near the front, and where it comes from stays", async () => {
    const { page } = opened;
    await button(page, /^power\s*, explained/).click();
    await page.getByRole("heading", { name: "Power", level: 1 }).waitFor();
    await worked(page);
    await button(page, "a stop nearer").click();
    await button(page, "a stop nearer").click();
    await expect.poll(() => cell(page, "the law says"), { timeout: 20_000 }).toBe("+2.0 stops");
    await expect.poll(() => cell(page, "the meter says"), { timeout: 20_000 }).toMatch(/^\+1\.[67] stops$/);
    expect(await cell(page, "comes from")).toBe(await cell(page, "comes from", 1));
    await button(page, "back to the plan").click();
    await settled(page);
  });

  test.each(["direction", "power"] as const)(
    "[AP76] %s: at no size cut off; axe finds nothing",
    async (topic) => {
      const { page } = opened;
      await button(page, topic === "power" ? /^power\s*, explained/ : "direction").click();
      await worked(page);
      for (const size of SIZES) {
        await page.setViewportSize(size);
        expect(await sidewaysOf(page), `${size.width}`).toBeLessThanOrEqual(0);
      }
      expect(await violations(page)).toEqual([]);
      await page.emulateMedia({ colorScheme: "dark" });
      expect(await violations(page)).toEqual([]);
    },
  );
});

test.each(["light", "dark"] as const)(
  "[AP79] %s: a pupil is darker than its iris, the iris than the white",
  async (scheme) => {
    const { page } = opened;
    await page.emulateMedia({ colorScheme: scheme });
    const levels = (await page.evaluate(`["pupil", "iris", "white"].map((part) => {
    const fill = getComputedStyle(document.querySelector(".eyes ." + part)).fill;
    return fill.match(/[\\d.]+/g).slice(0, 3).reduce((sum, v) => sum + Number(v), 0);
  })`)) as number[];
    expect(levels[0]).toBeLessThan(levels[1] as number);
    expect(levels[1]).toBeLessThan(levels[2] as number);
  },
);
