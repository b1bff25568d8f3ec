import { readFile } from "node:fs/promises";
import { decode } from "fast-png";
import type { Browser, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import {
  launch,
  line,
  openAlone,
  picture,
  read,
  type Served,
  SharedPage,
  serve,
  settled,
  side,
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
beforeEach(async () => {
  ({ page } = await shared.get(() => openAlone(browser, served.url)));
  await read(page);
});
afterEach(async ({ task }) => {
  expect(await shared.putBack(task.result?.state === "pass")).toEqual([]);
});

const frame = () => page.getByRole("region", { name: "Frame" });
const word = (name: string) => frame().getByRole("button", { name, exact: true });
const say = async (label: string, text: string) => {
  await frame().getByLabel(label).fill(text);
  await frame().getByLabel(label).press("Enter");
};
/** Text in the frame, all of it. */
const told = async () => (await frame().textContent()) ?? "";
const colours = (): Promise<string[]> =>
  page.evaluate(`(() => {
    const canvas = document.querySelector("canvas.picture");
    const { data } = canvas.getContext("2d").getImageData(0, 0, canvas.width, canvas.height);
    const seen = new Set();
    for (let i = 0; i < data.length; i += 4) seen.add(data[i] + " " + data[i + 1] + " " + data[i + 2]);
    return [...seen];
  })()`);

describe("the Frame", () => {
  test("[AP40] clipped skin is striped, and the look is there again after a reload", async () => {
    await say("aperture", "f/4");
    await settled(page);
    expect(await colours()).not.toContain("74 60 255");
    await word("clipping").click();
    await expect.poll(colours).toContain("74 60 255");
    expect(await told()).toMatch(/clipped skin: [\d.]+ % of the picture/);
    await page.reload();
    await settled(page);
    expect(await word("clipping").getAttribute("aria-pressed")).toBe("true");
    await word("clipping").click();
    await expect.poll(colours).not.toContain("74 60 255");
  });

  test("[AP41] black and white is grey, and its curve can be set with the keys", async () => {
    await settled(page);
    const isGrey = (colour: string) => new Set(colour.split(" ")).size === 1;
    expect((await colours()).every(isGrey)).toBe(false);
    await word("black and white").click();
    await expect.poll(async () => (await colours()).every(isGrey)).toBe(true);
    const plain = (await picture(page)).sum;
    await frame().getByRole("slider", { name: "contrast" }).press("ArrowRight");
    await expect.poll(async () => (await picture(page)).sum).not.toBe(plain);
    expect(await told()).toContain("1.07 stops per stop at the middle");
    await frame().getByRole("slider", { name: "contrast" }).press("ArrowLeft");
    await word("black and white").click();
  });

  test("[AP42] zones are ten colours at most and white, with a legend in stops", async () => {
    await settled(page);
    await word("zones").click();
    await expect.poll(async () => (await colours()).length).toBeLessThanOrEqual(11);
    expect((await colours()).length).toBeGreaterThan(4);
    expect(await told()).toContain("clips from +3.0");
    const legend = frame().getByRole("figure").getByRole("listitem");
    expect(await legend.allTextContents()).toEqual([
      "−6 and under",
      "−5",
      "−4",
      "−3",
      "−2",
      "−1",
      "0",
      "+1",
      "+2",
      "+3",
      "clips",
    ]);
    await word("zones").click();
  });

  test("[AP44] a crop by the lens and by the distance: one step of undo each, and the crop fills the frame", async () => {
    await word("crops").click();
    expect(await told()).toContain("beyond this frame: half, three-quarter, full");
    const lens = frame().getByRole("button", { name: /^change the lens: \d+ mm$/ });
    const before = await lens.textContent();
    await frame().getByRole("combobox", { name: "fill with" }).selectOption("half");
    // the words follow the choice a frame later
    await expect.poll(() => lens.textContent()).not.toBe(before);
    const length = /(\d+) mm/.exec((await lens.textContent()) ?? "")?.[1];
    await lens.click();
    await expect.poll(told).toContain(`beyond this frame: three-quarter, full`);
    expect(Math.round(Number(/([\d.]+) mm, f\//.exec(await told())?.[1]))).toBe(Number(length));
    await page.getByRole("button", { name: "undo" }).click();
    await expect.poll(told).toContain("135 mm, f/8");
    await frame()
      .getByRole("button", { name: /^move the camera: [\d.]+ m from the mark$/ })
      .click();
    await expect.poll(told).toContain("beyond this frame: three-quarter, full");
    expect(await told()).toContain("135 mm, f/8");
    await frame().getByRole("combobox", { name: "fill with" }).selectOption("full");
    await expect.poll(told).toMatch(/The near wall stops the camera at 4\.45 m.*a \d+ mm lens/);
    await word("crops").click();
  });

  test("[AP45] what is sharp is told in the Reading and drawn on the Side, and a wider aperture makes it less", async () => {
    const sharp = async () => (await line(page, "sharp before").textContent()) ?? "";
    const depth = async () => /(\d+) and (\d+) cm sharp before and behind the eyes/.exec(await sharp());
    const [, before, behind] = (await depth()) ?? [];
    expect(await sharp()).toMatch(/2\.\d\d to 2\.\d\d m; circle 0\.029 mm/);
    expect((await side(page).textContent()) ?? "").toMatch(/sharp2\.\d\d to 2\.\d\d m/);
    await say("aperture", "f/4");
    await expect.poll(async () => (await depth())?.[1]).toBe(String(Math.round(Number(before) / 2)));
    expect(Number((await depth())?.[2])).toBeLessThan(Number(behind));
  });

  test("[AP46] saved with 16 bits: as wide as asked, named after the plan, without guides", async () => {
    await word("thirds").click();
    await word("save picture").click();
    await say("pixels across", "120");
    const [download] = await Promise.all([page.waitForEvent("download"), word("PNG, 16 bit").click()]);
    expect(download.suggestedFilename()).toBe("cellist-season-poster-16-bit.png");
    const file = decode(await readFile(await download.path()));
    expect([file.width, file.height, file.depth, file.channels]).toEqual([120, 180, 16, 3]);
    expect(new Set(file.data).size).toBeGreaterThan(256);
    expect(Math.max(...file.data)).toBeLessThan(65535);
    await say("pixels across", "2400");
    await word("PNG, 8 bit").click();
    await word("stop").click();
    await expect.poll(told).toContain("Stopped; nothing was saved.");
    await word("save picture").click();
    await word("thirds").click();
  });

  test("[AP47] into the eyes and out again with Escape", async () => {
    await settled(page);
    const whole = (await picture(page)).sum;
    await word("into the eyes").click();
    await page.getByRole("img", { name: /^The eyes, larger/ }).waitFor();
    await expect.poll(async () => (await picture(page)).sum, { timeout: 30_000 }).not.toBe(whole);
    await page.keyboard.press("Escape");
    await page.getByRole("img", { name: /^The picture as the camera/ }).waitFor();
    await expect.poll(async () => (await picture(page)).sum).toBe(whole);
  });

  test("[AP48] the print's size is kept in the plan, and what it leaves of the frame is said", async () => {
    await word("print").click();
    // the demo's poster is a little narrower than two to three
    await expect.poll(told).toContain("uses 97 % of the frame");
    await word("not settled").click();
    await expect.poll(told).toContain("the whole frame is used");
    await say("width, finished print", "1.2");
    await expect.poll(() => frame().getByLabel("height, finished print").inputValue()).toBe("1.80 m");
    await say("height, finished print", "1.2");
    await expect.poll(told).toContain("uses 67 % of the frame");
    await word("not settled").click();
    await expect.poll(told).toContain("the whole frame is used");
    await word("print").click();
  });
});
