// What the pictures of docs/guide show, and the way to each: scripts/guide-pictures.mjs takes them.
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";

const button = (page, name) => page.getByRole("button", { name, exact: true });
const floor = (page) => page.getByRole("group", { name: /^Floor/ });
const settled = (page) => page.locator(".reading[aria-busy=false]").waitFor({ timeout: 180_000 });
const hold = async (page, name) => {
  await floor(page)
    .getByRole("button", { name: new RegExp(`^${name}`) })
    .focus();
  await settled(page);
};
const moved = (page) =>
  page
    .getByRole("toolbar", { name: "Moves" })
    .and(page.locator("[aria-busy=false]"))
    .waitFor({ timeout: 180_000 });

async function testFrame(page, root) {
  await button(page, "test frames").click();
  await page
    .getByLabel("photographs", { exact: true })
    .setInputFiles(join(root, "examples", "test-frame.jpg"));
  await page.getByRole("table", { name: "plan and frame" }).waitFor({ timeout: 180_000 });
  await page.waitForTimeout(2500);
}

/** From the workbench: `lead` goes there, `crop` tells what of it is taken. */
export const SCREENS = [
  {
    name: "plan",
    width: 1150,
    async lead(page) {
      await hold(page, "key");
      await moved(page);
    },
    crop: () => ({}),
  },
  {
    name: "brief",
    width: 1100,
    plan: "examples/brief-poster.json",
    async lead(page) {
      await button(page, "find a set-up").click();
      await button(page, "find set-ups").click();
      await page.locator(".answers .card").first().waitFor({ timeout: 300_000 });
      await button(page, "stop").waitFor({ state: "detached", timeout: 300_000 });
      await page.waitForTimeout(6000);
    },
    crop: () => ({ clip: { x: 0, y: 0, width: 1440, height: 860 } }),
  },
  {
    name: "power",
    width: 560,
    async lead(page) {
      await page.getByRole("button", { name: "direction it comes from" }).click();
      await page.waitForTimeout(600);
    },
    crop: (page) => ({ locator: floor(page) }),
  },
  {
    name: "direction",
    width: 560,
    async lead(page) {
      await page.getByRole("button", { name: "power", exact: true }).first().click();
      await page.waitForTimeout(600);
    },
    crop: (page) => ({ locator: floor(page) }),
  },
  {
    name: "reading",
    width: 560,
    lead: settled,
    crop: (page) => ({ locator: page.getByRole("region", { name: "Reading" }) }),
  },
  {
    name: "moves",
    width: 560,
    lead: moved,
    crop: () => ({ clip: { x: 886, y: 0, width: 554, height: 620 } }),
  },
  {
    name: "hold-zone",
    width: 560,
    async lead(page) {
      await page.getByRole("button", { name: "hold zone" }).click();
      await page.locator(".hold-zone[aria-busy=false]").waitFor({ timeout: 180_000 });
      for (const name of ["power", "direction it comes from"])
        await page.getByRole("button", { name, exact: true }).first().click();
      const closer = button(page, "larger, Floor");
      for (let i = 0; i < 3; i++) await closer.click();
      await page.waitForTimeout(600);
    },
    crop: (page) => ({ locator: floor(page) }),
  },
  {
    name: "remedies",
    width: 560,
    size: [1440, 1500],
    async lead(page) {
      const asks = page.locator(".asks");
      await asks.locator("summary").first().click();
      await asks.getByLabel("wish", { exact: true }).selectOption({ label: "the background changes by" });
      const stops = asks.getByRole("textbox", { name: /^stops/ });
      await stops.fill("-0.5");
      await stops.press("Enter");
      await button(page, "find the smallest changes").click();
      await asks.getByRole("listitem").first().waitFor({ timeout: 300_000 });
      await page.waitForTimeout(1500);
    },
    crop: (page) => ({ locator: page.locator(".asks") }),
  },
  {
    name: "frame",
    width: 1150,
    lead: testFrame,
    crop: () => ({}),
  },
  {
    name: "next-sitter",
    width: 300,
    size: [1440, 1100],
    async lead(page) {
      await hold(page, "cellist");
      await page.locator(".numbers details.fold summary").filter({ hasText: "next sitter" }).click();
      await page.getByRole("textbox", { name: /^stature.*next sitter/ }).fill("1.58");
      await page.keyboard.press("Enter");
      await settled(page);
      await button(page, "heights for a day of sitters").click();
      await page.waitForTimeout(1500);
    },
    crop: (page) => ({ locator: page.locator(".numbers details.fold").filter({ hasText: "next sitter" }) }),
  },
  {
    name: "shelf",
    width: 1100,
    async lead(page) {
      await button(page, "gear").click();
      await page.getByRole("heading", { name: "Heads" }).waitFor();
    },
    crop: () => ({ clip: { x: 0, y: 0, width: 1440, height: 830 } }),
  },
  {
    name: "can-it",
    width: 1100,
    async lead(page) {
      await button(page, "gear").click();
      await button(page, "can it do that?").click();
      await page.waitForTimeout(2500);
    },
    crop: () => ({ clip: { x: 0, y: 0, width: 1440, height: 560 } }),
  },
  {
    name: "weights",
    width: 1000,
    async lead(page) {
      await button(page, "gear").click();
      await button(page, "weights and mains").click();
      await page.waitForTimeout(1500);
    },
    crop: () => ({ clip: { x: 0, y: 0, width: 1440, height: 900 } }),
  },
  {
    name: "checklist",
    width: 390,
    size: [1440, 900],
    async lead(page) {
      await button(page, "checklist").click();
      await page.setViewportSize({ width: 390, height: 844 });
      for (let i = 0; i < 3; i++) await button(page, "next").click();
      await page.waitForTimeout(4000);
    },
    crop: () => ({}),
  },
  {
    name: "final-use",
    width: 1100,
    async lead(page) {
      await button(page, "final use").first().click();
      await page.waitForTimeout(15000);
    },
    crop: () => ({}),
  },
];

/** The program's own type, so that words are as wide as they are laid out for. */
const type = (root) =>
  [400, 600]
    .map((weight) => {
      const file = join(root, "node_modules/@fontsource/inter/files", `inter-latin-${weight}-normal.woff2`);
      const data = readFileSync(file).toString("base64");
      return `@font-face { font-family: Inter; font-weight: ${weight}; src: url(data:font/woff2;base64,${data}); }`;
    })
    .join("");

/** Frames side by side, each under its words. */
function strip(frames, { root, work, tapemark }) {
  const shown = frames.map(({ says, plan }, i) => {
    const [from, to] = [join(work, `strip-${i}.json`), join(work, `strip-${i}.png`)];
    writeFileSync(from, JSON.stringify(plan(root)));
    tapemark("frame", from, "--out", to, "--width", "200");
    const data = readFileSync(to).toString("base64");
    return `<figure><img src="data:image/png;base64,${data}"><figcaption>${says}</figcaption></figure>`;
  });
  return `<!doctype html><style>${type(root)}
    body { margin: 0; padding: 12px; display: flex; gap: 12px; width: max-content; background: #f5f4ef; color: #1b2026;
      font: 15px/1.35 Inter, "DejaVu Sans", sans-serif; }
    figure { margin: 0; width: 160px; } img { width: 160px; display: block; border: 5px solid #fff; box-sizing: border-box; }
    figcaption { padding-top: 6px; }
  </style>${shown.join("")}`;
}

/** Head and shoulders: what differs between looks is on the face. */
function closeUp(plan) {
  const [x, y] = plan.people[0].position;
  const at = [x, y, plan.camera.position[2] - 0.06];
  return {
    ...plan,
    people: plan.people.map((person) => ({ hair: { length: "short" }, ...person })),
    camera: { ...plan.camera, focalLength: 190, direction: { at } },
  };
}

const example = (name) => (root) =>
  closeUp(JSON.parse(readFileSync(join(root, "examples", `${name}.json`), "utf8")));

/** One head and one disc on one line at 40° round and 30° up, as far off as asked, the face lit alike. */
function onOneLine(away_m) {
  const [round, up] = [(40 * Math.PI) / 180, (30 * Math.PI) / 180];
  const face = [3, 3.9, 1.6];
  const R2 = 0.45 ** 2;
  return () =>
    closeUp({
      format: "tapemark/plan",
      version: 1,
      room: {
        width: 6,
        depth: 7,
        height: 3,
        reflectance: { near: 0.1, far: 0.1, left: 0.1, right: 0.1, floor: 0.1, ceiling: 0.1 },
      },
      backdrop: { kind: "paper", position: [3, 5.4], reflectance: 0.5 },
      people: [{ position: [3, 4], eyeHeight: 1.6, hair: { length: "short" } }],
      camera: { position: [3, 1.6, 1.6], direction: { at: [3, 4, 1.5] }, focalLength: 85 },
      lights: [
        {
          position: [
            face[0] + away_m * Math.cos(up) * Math.sin(round),
            face[1] - away_m * Math.cos(up) * Math.cos(round),
            face[2] + away_m * Math.sin(up),
          ],
          direction: { at: face },
          face: { shape: "disc", width: 0.9 },
          // a uniform disc lights its axis with 1 / (R² + d²): the dial makes up for it
          output: { lumenSeconds: (950 * (R2 + away_m ** 2)) / (R2 + 1.2 ** 2) },
        },
      ],
    });
}

/** The first page of what a command prints. */
function papers(call, { root, work, tapemark }) {
  const out = join(work, `${call[0]}.svg`);
  tapemark(...call, "--out", out);
  return `<!doctype html><style>${type(root)}
    body { margin: 0; padding: 10px; width: max-content; background: #d9d7cf; }
    svg { width: 600px; height: auto; display: block; background: #fff; }
  </style>${readFileSync(out, "utf8").replace(/^<\?xml[^>]*>/, "")}`;
}

/** Put together from frames that the shell makes. */
export const DRAWN = [
  {
    name: "looks",
    width: 1060,
    make: (tools) =>
      strip(
        [
          { says: "butterfly", plan: example("manual-butterfly") },
          { says: "Rembrandt", plan: example("manual-rembrandt") },
          { says: "split", plan: example("manual-split") },
          { says: "rim", plan: example("manual-rim") },
          { says: "broad: the lit side is turned to the lens", plan: example("manual-broad") },
          { says: "short: the lit side is turned away", plan: example("manual-short") },
        ],
        tools,
      ),
  },
  {
    name: "near-and-far",
    width: 720,
    make: (tools) =>
      strip(
        [0.8, 1.2, 1.7, 2.4].map((away) => ({
          says: `key ${away.toFixed(1)} m off, face lit alike`,
          plan: onOneLine(away),
        })),
        tools,
      ),
  },
  {
    name: "sheet",
    width: 620,
    make: (tools) => papers(["sheet", "examples/cellist.json"], tools),
  },
  {
    name: "contact-sheet",
    width: 620,
    make: (tools) => papers(["contact", "examples/cellist.json"], tools),
  },
  {
    name: "record-sheet",
    width: 620,
    make: (tools) => papers(["record", "examples/cellist-measured.json", "examples/test-frame.jpg"], tools),
  },
];
