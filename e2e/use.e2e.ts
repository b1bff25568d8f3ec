/** The picture at its final size, by hand: nothing of the light is worked out here. */
import type { Browser, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from "vitest";
import { drawn, launch, type Opened, openAlone, type Served, serve, unlit, violations } from "./start.ts";

let browser: Browser;
let served: Served;
let opened: Opened;
let page: Page;

beforeAll(async () => {
  browser = await launch();
  served = await serve("examples/cellist.json");
  opened = await openAlone(browser, served.url, { bypassCSP: true }, unlit);
  ({ page } = opened);
  await drawn(page);
  await page.getByRole("button", { name: "final use" }).first().click();
  await title().waitFor();
});
afterAll(async () => {
  await browser.close();
  await served.stop();
});
beforeEach(async () => {
  const undo = page.getByRole("button", { name: "undo", exact: true });
  while (await undo.isEnabled()) await undo.click();
});
afterEach(() => expect(opened.complaints).toEqual([]));

const title = () => page.getByRole("heading", { level: 1, name: "Final use" });
const field = (name: string | RegExp) => page.getByLabel(name);
const holds = () => page.getByRole("region", { name: "What the file holds" });
const smears = () => page.getByRole("region", { name: "How wide a point becomes" });
const part = () => page.getByRole("region", { name: "As large as it will look" });

async function type(name: string | RegExp, text: string): Promise<void> {
  await field(name).fill(text);
  await field(name).press("Enter");
}

test("[AP160] opened from the first step, its heading has the keys, and it leads back", async () => {
  expect(await page.evaluate("document.activeElement.textContent")).toBe("Final use");
  await page.getByRole("button", { name: "back to the plan" }).click();
  await drawn(page);
  await expect.poll(() => page.evaluate("document.activeElement.textContent")).toBe("final use");
  expect(await page.getByRole("button", { name: "final use" }).count()).toBe(2);
  await page.getByRole("button", { name: "final use" }).first().click();
  await page.getByRole("button", { name: "not settled" }).click();
  await page.getByText(/^Say what the picture is for/).waitFor();
  expect(await holds().count()).toBe(0);
});

test("[AP162] a named use in one step, fields beside it; a web page in its own pixels", async () => {
  await field(/^begin with/).selectOption("hall banner");
  // 5504 on 6 m, 3.75 m, and the 50 that are asked
  await expect.poll(() => holds().textContent()).toMatch(/23 an inch.*nearer than 3\.75 m.*23 of 50/);
  await expect
    .poll(() => page.getByRole("status").textContent())
    .toMatch(/^pixels: 23 an inch; eye: no pixel is seen; .*asked: 23 of 50; .*in focus: /);
  expect(await field(/^called/).inputValue()).toBe("hall banner");
  await type(/^seen from/, "3");
  await expect.poll(() => holds().textContent()).toMatch(/pixels are seen.*not seen from 3\.75 m on/);
  await type(/^seen from/, "");
  await expect.poll(() => holds().textContent()).toMatch(/from 6\.71 m, which is its diagonal/);
  await page.getByRole("button", { name: "undo", exact: true }).click();
  await page.getByRole("button", { name: "undo", exact: true }).click();
  await page.getByRole("button", { name: "undo", exact: true }).click();
  expect(await field(/^called/).inputValue()).toBe("season poster");
  await field(/^begin with/).selectOption("web banner");
  await part()
    .getByText(/^The eye in focus is not in it/)
    .waitFor();
  expect(await field(/^page’s pixels/).inputValue()).toBe("1600 × 600");
  await type(/^page’s pixels/, "1200x400");
  await expect.poll(() => holds().textContent()).toMatch(/the page asks 192 an inch, 2400 × 800 pixels/);
});

test("[AP163] what is told follows at once, in the units in use; what cannot be is refused with its cure", async () => {
  const nose = () => smears().getByRole("listitem").filter({ hasText: "focus at the nose" }).textContent();
  const before = await nose();
  expect(before).toMatch(/\d mm.*seen from 1\.50 m: .*times what the eye tells apart.*close the lens to f\//);
  await type("aperture", "f/16");
  await expect.poll(nose).not.toBe(before);
  expect(await nose()).toMatch(/not seen from 1\.50 m/);
  expect(await field(/^body/).inputValue()).toBe("0");
  await type(/^pixels/, "not known");
  expect(await field(/^body/).inputValue()).toBe("");
  await expect.poll(() => holds().textContent()).toMatch(/not known.*give the file’s pixels/);
  await type(/^pixels/, "lots");
  await page.getByText(/“lots” is no pair of whole numbers: give one such as 8256 × 5504/).waitFor();
  await field(/^pixels/).press("Escape");
  await field(/^body/).selectOption("45 megapixel body");
  expect(await field(/^pixels/).inputValue()).toBe("8256 × 5504");
  await type(/^width used/, "50 %");
  await page.getByText(/^uses 24 % of the frame/).waitFor();
  await page.getByRole("button", { name: "feet" }).click();
  // twice as large as at the whole width
  await expect.poll(nose).toMatch(/[^t] ?seen from 4′ 11″: 1\.4 times/);
  await page.getByRole("button", { name: "metres" }).click();
});

test("[AP164] as large as it will look: by the card, from where one sits, kept for the next time", async () => {
  const shown = async () => {
    const box = await part().getByRole("img").boundingBox();
    const said = /^([\d.]+) m of the picture/.exec(
      (await part().getByRole("img").getAttribute("aria-label")) ?? "",
    );
    return { px: box?.width ?? 0, m: Number(said?.[1]) };
  };
  const { px, m } = await shown();
  // nothing of it is squeezed away
  const heights =
    await page.evaluate(`["canvas.true-size", ".true-size-box", ".card-outline", ".card-place"].map((each) =>
    Math.round(document.querySelector(each).getBoundingClientRect().height))`);
  const [picture, place, card0, cardPlace] = heights as number[];
  expect([place, cardPlace]).toEqual([picture, card0]);
  // 96 px an inch, 0.60 m away; the poster from 1.50 m. Said to the centimetre
  expect(Math.abs((px / (96 / 0.0254) / 0.6) * 1.5 - m)).toBeLessThan(0.0051);
  await type(/^you sit from it/, "0.3");
  await expect.poll(async () => (await shown()).m / m).toBeCloseTo(2, 1);
  await page.getByText(/^This screen’s own pixels are seen/).waitFor();
  const slider = field("length of the card on this screen");
  await slider.focus();
  for (let n = 0; n < 5; n++) await page.keyboard.press("PageUp");
  await page.getByText(/^Measured: \d+ of the page’s pixels an inch/).waitFor();
  const perMm = Number(await slider.inputValue());
  const card = await page.locator(".card-outline").boundingBox();
  expect(Math.max(card?.width ?? 0, card?.height ?? 0)).toBeCloseTo(85.6 * perMm, 0);
  const measured = await shown();
  expect(Math.abs((measured.px / perMm / 300) * 1.5 - measured.m)).toBeLessThan(0.0051);
  await page.getByRole("button", { name: "back to the plan" }).click();
  await page.getByRole("button", { name: "final use" }).first().click();
  expect(Number(await slider.inputValue())).toBeCloseTo(perMm, 2);
  expect(await field(/^you sit from it/).inputValue()).toBe("0.30 m");
  await type(/^you sit from it/, "0.02");
  await page.getByText(/must be from 0\.10 m to 20\.00 m/).waitFor();
  await field(/^you sit from it/).press("Escape");
});

test("[AP166] axe-core finds nothing, and nothing is cut at three sizes", async () => {
  for (const colorScheme of ["light", "dark"] as const) {
    await page.emulateMedia({ colorScheme });
    expect(await violations(page)).toEqual([]);
  }
  for (const [width, height] of [
    [1440, 900],
    [1024, 768],
    [390, 844],
  ] as const) {
    await page.setViewportSize({ width, height });
    // what is as wide as its room follows a frame later
    const faults = () =>
      page.evaluate(`(() => {
      const wide = document.documentElement.clientWidth;
      const out = document.documentElement.scrollWidth > wide ? ["the page is wider"] : [];
      for (const e of document.querySelectorAll("main button, main input, main select, main p, main dd, main canvas, main h2")) {
        if (e.closest(".visually-hidden")) continue;
        const box = e.getBoundingClientRect();
        if (box.width === 0) continue;
        if (box.left < -0.5 || box.right > wide + 0.5) out.push("outside: " + e.outerHTML.slice(0, 120));
        if (e.matches("button, select, input:not([type=range])") && (box.height < 23.9 || box.width < 23.9)) out.push("small: " + e.outerHTML.slice(0, 120));
        if (e.scrollWidth > e.clientWidth + 1 && getComputedStyle(e).display !== "inline") out.push("cut: " + e.outerHTML.slice(0, 120));
      }
      return out;
    })()`);
    await expect.poll(faults, { message: `${width} × ${height}` }).toEqual([]);
  }
  await page.setViewportSize({ width: 1440, height: 900 });
});

test("[AP165] a test frame is shown in its own pixels, which are offered for the file", async () => {
  await page.getByRole("button", { name: "back to the plan" }).click();
  await page.getByRole("button", { name: "test frames" }).click();
  await field("photographs").setInputFiles("examples/test-frame.jpg");
  await page
    .getByRole("button", { name: /back to the plan|plan/ })
    .first()
    .click();
  await page.getByRole("button", { name: "final use" }).first().click();
  await part().getByRole("button", { name: "test-frame.jpg" }).click({ timeout: 60_000 });
  await part()
    .getByText(/The photograph as it is, \d+ × \d+ pixels/)
    .waitFor();
  const sum = `document.querySelector("canvas.true-size").toDataURL()`;
  const painted = `(() => {
    const canvas = document.querySelector("canvas.true-size");
    const { data } = canvas.getContext("2d").getImageData(0, 0, canvas.width, canvas.height);
    return new Set(data).size;
  })()`;
  await expect.poll(() => page.evaluate(painted), { timeout: 10_000 }).toBeGreaterThan(50);
  const eyes = await page.evaluate(sum);
  await field(/^looked at/).selectOption("the picture’s middle");
  await expect.poll(() => page.evaluate(sum)).not.toBe(eyes);
  const offer = page.getByRole("button", { name: /^as test-frame\.jpg: / });
  const [, pixels] = /: (\d+ × \d+)$/.exec((await offer.textContent()) ?? "") ?? [];
  await offer.click();
  expect(await field(/^pixels/).inputValue()).toBe(pixels);
});
