/** Lights, entries, units and large numbers, by hand. */
import type { Browser, Locator } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import {
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
  opened.page.setDefaultTimeout(8000);
  await read(opened.page);
});
afterEach(async ({ task }) => {
  expect(await shared.putBack(task.result?.state === "pass")).toEqual([]);
});

const pick = (name: string) =>
  opened.page
    .getByRole("navigation", { name: "In this plan" })
    .getByRole("button", { name, exact: true })
    .first()
    .click();
/** the key's own: what is seen as "power" is heard as "power, key" */
const named = (label: string) => new RegExp(`^${label}\\s*, key$`);
const field = (label: string) => numbers(opened.page).getByRole("textbox", { name: named(label) });
const choice = (label: string) => numbers(opened.page).getByRole("combobox", { name: named(label) });
const button = (label: string) => opened.page.getByRole("button", { name: named(label) });
const meter = async (name: string) =>
  (await line(opened.page, `at the ${name}`).locator("strong").textContent()) ?? "";
/** A fold stays as it was left. */
async function unfold(word: string): Promise<void> {
  const fold = numbers(opened.page).locator("details", {
    has: opened.page.locator("summary", { hasText: word }),
  });
  if ((await fold.getAttribute("open")) === null) await fold.locator("summary").click();
}
const undo = () => opened.page.getByRole("button", { name: /^undo/ }).click();

async function type(into: Locator, text: string): Promise<void> {
  await into.fill(text);
  await into.press("Enter");
}

describe("a light's controls", () => {
  beforeEach(() => pick("key"));

  test("[AP50] power is typed as any head is marked, and set on its dial by keys; a run of keys is one step", async () => {
    const { page } = opened;
    await settled(page);
    const power = field("power");
    expect(await power.inputValue()).toBe("−2.2");
    const dial = numbers(page).getByRole("slider", { name: "dial of key" });
    expect(await dial.getAttribute("aria-valuetext")).toBe("−2.2, 87 Ws");
    const before = await meter("chin");
    await type(power, "1/8 + 0.8");
    expect(await power.inputValue()).toBe("−2.2");
    await type(power, "100 Ws");
    expect(await power.inputValue()).toBe("−2.0");
    await dial.press("ArrowLeft");
    await dial.press("ArrowLeft");
    expect(await power.inputValue()).toBe("−2.2");
    await settled(page);
    expect(await meter("chin")).toBe(before);
    await dial.press("PageDown");
    expect(await power.inputValue()).toBe("−3.2");
    await unfold("head");
    await choice("marked").selectOption("fractions");
    expect(await power.inputValue()).toBe("1/16 + 0.8");
    await choice("marked").selectOption("wattSeconds");
    expect(await power.inputValue()).toBe("44 Ws");
  });

  test("[AP50] what lies outside the dial is said with margin and remedy; over full power the old stays", async () => {
    const power = field("power");
    await type(power, "800 Ws");
    expect(await numbers(opened.page).getByRole("alert").textContent()).toMatch(
      /Over full power by 1\.0 stop; a head of 800 Ws, .*Kept −2\.2/,
    );
    await power.press("Escape");
    expect(await power.inputValue()).toBe("−2.2");
    await type(power, "−7.3");
    expect(await power.inputValue()).toBe("−7.3");
    expect(await numbers(opened.page).getByRole("alert").textContent()).toMatch(
      /Under the dial's least, −6\.0, by 1\.3 stops; a grey filter of 1\.3 stops/,
    );
  });

  test("[AP54] f/11 typed where the meter is held sets the power so that it reads f/11 there, as one step", async () => {
    const { page } = opened;
    await settled(page);
    const reads = field("alone reads");
    expect(await reads.inputValue()).toBe(await meter("chin"));
    await type(reads, "f/11");
    await expect.poll(() => reads.inputValue()).toBe("f/11 + 0.0");
    await settled(page);
    expect(await meter("chin")).toBe("f/11 + 0.0");
    expect(Number.parseFloat((await field("power").inputValue()).replace("−", "-"))).toBeGreaterThan(-2);
    await undo();
    expect(await field("power").inputValue()).toBe("−2.2");
    // more than the head has
    await settled(page);
    await type(reads, "f/32");
    await expect
      .poll(() => numbers(page).getByRole("alert").textContent())
      .toMatch(/Over full power by \d\.\d stop/);
    expect(await field("power").inputValue()).toBe("−2.2");
  });

  test("[AP54] so it does on the lit cheek", async () => {
    await settled(opened.page);
    const usual = await choice("at").inputValue();
    await choice("at").selectOption("lit cheek");
    const reads = field("alone reads");
    await expect.poll(() => reads.inputValue()).toMatch(/^f\//);
    await type(reads, "f/5.6");
    await expect.poll(() => reads.inputValue(), { timeout: 10_000 }).toBe("f/5.6 + 0.0");
    await choice("at").selectOption(usual);
  });

  test("[AP51] given another way, the light stays the same", async () => {
    const { page } = opened;
    await settled(page);
    const before = { chin: await meter("chin"), picture: (await picture(page)).sum };
    await unfold("head");
    for (const form of ["lumenSeconds", "guideNumber", "meter", "wattSeconds"]) {
      await choice("given by").selectOption(form);
      await settled(page);
      expect(await meter("chin")).toBe(before.chin);
    }
    expect((await picture(page)).sum).toBe(before.picture);
  });

  test("[AP52] [AP53] front, beam and filter are chosen; each says in a word what it is", async () => {
    const { page } = opened;
    await unfold("front");
    await choice("shape").selectOption("disc");
    expect(await field("width").inputValue()).toBe("1.54 m");
    await unfold("beam");
    await choice("with").selectOption("40");
    expect(await field("half across").inputValue()).toBe("40°");
    await settled(page);
    await type(field("half across"), "10");
    expect(await numbers(page).getByRole("alert").textContent()).toMatch(/give 17\.4° to 120°/);
    await field("half across").press("Escape");
    await unfold("colour");
    await choice("filter").selectOption("warming");
    expect(Number(await field("passes blue").inputValue())).toBeLessThan(0.3);
    expect(await numbers(page).locator("summary").allTextContents()).toEqual(
      expect.arrayContaining([
        expect.stringContaining("round 1.54 m"),
        expect.stringContaining("40°"),
        expect.stringContaining("5600 K, warming"),
      ]),
    );
  });

  test("[AP56] alone says so beside the frame and in the numbers, with a way out", async () => {
    const { page } = opened;
    await button("alone").click();
    await settled(page);
    const beside = page.getByRole("complementary", { name: "Frame and reading" });
    expect(await beside.getByText("only key is seen").count()).toBe(1);
    expect(
      await numbers(page)
        .getByText(/only key is seen/)
        .count(),
    ).toBe(1);
    await beside.getByRole("button", { name: "see all lights" }).click();
    expect(await page.getByText(/only key is seen/).count()).toBe(0);
  });

  test("[AP59] feet and inches in every length of a light, however they are typed", async () => {
    const { page } = opened;
    await page.getByRole("button", { name: "feet", exact: true }).click();
    await unfold("front");
    const width = field("width");
    await type(width, "150cm");
    expect(await width.inputValue()).toBe("4′ 11″");
    await type(width, "4'11\"");
    await type(width, "5");
    expect(await width.inputValue()).toBe("5′ 0″");
    for (const each of await numbers(page).getByRole("textbox").all())
      expect(await each.inputValue()).not.toMatch(/\d m\b/);
    await page.getByRole("button", { name: "metres", exact: true }).click();
  });
});

describe("entries", () => {
  test("[AP57] a typed 8.4 asks which is meant; the choices are reached by keys; Escape keeps the old", async () => {
    const { page } = opened;
    const aperture = page.getByLabel("aperture");
    await type(aperture, "8.4");
    const asked = page.getByRole("group", { name: /8\.4.*two ways/ });
    expect(await asked.getByRole("button").allTextContents()).toEqual([
      "f/8 + 0.4",
      "f-number 8.4, that is f/8 + 0.1",
      "neither, keep f/8 + 0.0",
    ]);
    expect(await page.locator(":focus").textContent()).toBe("f/8 + 0.4");
    await page.keyboard.press("Escape");
    expect(await asked.count()).toBe(0);
    expect(await aperture.inputValue()).toBe("f/8 + 0.0");
    await type(aperture, "8.4");
    await page.keyboard.press("Enter");
    expect(await aperture.inputValue()).toBe("f/8 + 0.4");
    await type(aperture, "8.4");
    await page.keyboard.press("Tab");
    await page.keyboard.press("Enter");
    expect(await aperture.inputValue()).toBe("f/8 + 0.1");
    await type(aperture, "6.3");
    expect(await aperture.inputValue()).toBe("f/5.6 + 0.3");
  });
});

/** Width, height, and the least size of a number, in pixels. */
const SCREENS = [
  [1440, 900, 84],
  [1024, 768, 48],
  [390, 844, 40],
] as const;
const SIZE = `Number.parseFloat(getComputedStyle(document.querySelector(".large-numbers strong")).fontSize)`;

test("[AP58] large numbers fill their column at every size of screen, and nothing is cut off", async () => {
  const { page } = opened;
  await settled(page);
  await page.getByRole("button", { name: "large numbers" }).click();
  const large = page.getByRole("region", { name: "Large numbers" });
  const text = await large.textContent();
  const name = await pattern(page).textContent();
  for (const words of [name, await meter("chin"), await meter("dome"), "cheek to cheek", "to clipping"])
    expect(text).toContain(words);
  for (const [width, height, least] of SCREENS) {
    await page.setViewportSize({ width, height });
    await expect.poll(() => page.evaluate("innerWidth")).toBe(width);
    expect(await page.evaluate(SIZE)).toBeGreaterThanOrEqual(least);
    await expect.poll(() => page.evaluate("document.documentElement.scrollWidth")).toBeLessThanOrEqual(width);
    const region = await large.boundingBox();
    for (const part of await large.locator("strong, dt, dd > span").all()) {
      const box = await part.boundingBox();
      if (region === null || box === null) throw new Error("not drawn");
      expect(box.x + box.width).toBeLessThanOrEqual(region.x + region.width + 1);
    }
  }
  await page.setViewportSize({ width: 1440, height: 900 });
  await page.getByRole("button", { name: "large numbers" }).click();
});
