import { describe, expect, it } from "vitest";
import { overlap } from "./labels.ts";
import { measurePlaces } from "./place.ts";
import { PAPER_SIZE, placementSheet } from "./placement.ts";
import { PLANS, planOf, readingFor } from "./testing/plans.ts";
import { shapesOf, textsOf } from "./testing/read-page.ts";

const CASES = Object.entries(PLANS).flatMap(([name, plan]) =>
  (["a4", "letter"] as const).flatMap((paper) =>
    (["metric", "feet"] as const).map((units) => ({ name, plan, paper, units })),
  ),
);
const picture = { data: "iVBORw0KGgo=", width: 480, height: 720 };
const sheetOf = (c: (typeof CASES)[number]) =>
  placementSheet(c.plan, readingFor(c.plan), {
    paper: c.paper,
    units: c.units,
    date: "29 November 2026",
    picture,
  });

describe("[SH6] nothing overlaps, nothing is off the page, nothing is too small to read", () => {
  it.each(CASES)("$name, $paper, $units", (c) => {
    const [width, height] = PAPER_SIZE[c.paper];
    for (const page of sheetOf(c)) {
      const texts = textsOf(page);
      expect(texts.length).toBeGreaterThan(3);
      for (const { text, size, box } of texts) {
        expect(size, text).toBeGreaterThanOrEqual(2.6);
        // a printer that cannot print the outer 10 mm loses nothing
        expect(box.x0, text).toBeGreaterThanOrEqual(10);
        expect(box.y0, text).toBeGreaterThanOrEqual(10);
        expect(box.x1, text).toBeLessThanOrEqual(width - 10);
        expect(box.y1, text).toBeLessThanOrEqual(height - 10);
      }
      const collisions = texts.flatMap((a, i) =>
        texts.slice(i + 1).flatMap((b) => (overlap(a.box, b.box) ? [`${a.text} × ${b.text}`] : [])),
      );
      expect(collisions).toEqual([]);
      for (const { points, owner } of shapesOf(page))
        for (const [x, y] of points) {
          expect(x >= 0 && x <= width && y >= 0 && y <= height, `${owner} at ${x}, ${y}`).toBe(true);
        }
    }
  });
});

/** "right wall 2.55 m", "far wall 4′ 3″", "mark 1.42 m" and the like, back to metres. */
function printed(svg: string, before: string): number[] {
  const found: number[] = [];
  for (const { text } of textsOf(svg)) {
    const match = new RegExp(`^${before}\\s?([\\d.]+ m|\\d+′ [\\d¼½¾]+″)$`).exec(text);
    if (match) found.push(metres(match[1]));
  }
  return found;
}
/** 4′ 11½″ is 4 x 12 + 11.5 inches of 25.4 mm. */
function metres(text: string): number {
  const feet = /^(\d+)′ (\d*)([¼½¾]?)″$/.exec(text);
  if (feet === null) return Number.parseFloat(text);
  const [, whole, inches, part] = feet;
  return 0.0254 * (12 * Number(whole) + Number(inches) + ["", "¼", "½", "¾"].indexOf(part) / 4);
}

const holds = (values: readonly number[], wanted: number) =>
  values.some((v) => Math.abs(v - wanted) <= 0.005 + 1e-9);

describe("[SH4] every printed distance is the plan's within 5 mm", () => {
  it.each(CASES.filter((c) => c.plan.room !== null))("$name, $paper, $units", (c) => {
    const { plan } = c;
    const room = plan.room!;
    const pages = sheetOf(c).join("");
    const bare = printed(pages, "");
    const walls = {
      left: printed(pages, "left wall"),
      right: printed(pages, "right wall"),
      near: printed(pages, "near wall"),
      far: printed(pages, "far wall"),
    };
    // measured here straight from the plan, not through the sheet's own measuring
    const things = [
      ...plan.lights.map((l) => l.position),
      ...plan.panels.map((p) => p.position),
      plan.camera.position,
    ];
    for (const [x, y, z] of things) {
      expect(holds(walls.left, x) || holds(walls.right, room.width - x), `${x} across`).toBe(true);
      expect(holds(walls.near, y) || holds(walls.far, room.depth - y), `${y} deep`).toBe(true);
      expect(holds(bare, z), `${z} high`).toBe(true);
    }
    for (const { position } of plan.people) {
      expect(holds(walls.left, position[0]) || holds(walls.right, room.width - position[0])).toBe(true);
    }
    // and nothing is printed that is not there
    for (const value of walls.left)
      expect(
        [
          ...things,
          ...plan.people.map((p) => p.position),
          ...(plan.backdrop ? [plan.backdrop.position] : []),
        ].some((p) => Math.abs(p[0] - value) <= 0.005 + 1e-9),
      ).toBe(true);
  });
});

describe("[SH5] drawn distances are at the printed scale within 0.3 mm", () => {
  it.each(CASES)("$name, $paper, $units", (c) => {
    const { plan } = c;
    const [page] = sheetOf(c);
    const scale = Number(/1 : ([\d.]+)/.exec(page)![1]);
    const shapes = shapesOf(page);
    const millimetres = (metres: number) => (1000 * metres) / scale;
    const bar = shapes.find((s) => s.kind === "scale-bar")!;
    const barMetres = Number(/data-metres="([\d.]+)"/.exec(page)![1]);
    expect(Math.abs(bar.points[1][0] - bar.points[0][0] - millimetres(barMetres))).toBeLessThan(0.3);
    // the floor comes first, so the first axis of an owner is the one seen from above
    const starts = plan.lights.map(
      (_, i) => shapes.find((s) => s.kind === "axis" && s.owner === `lights[${i}]`)!.points[0],
    );
    plan.lights.forEach((a, i) => {
      plan.lights.forEach((b, k) => {
        const drawn = Math.hypot(starts[i][0] - starts[k][0], starts[i][1] - starts[k][1]);
        const real = Math.hypot(a.position[0] - b.position[0], a.position[1] - b.position[1]);
        expect(Math.abs(drawn - millimetres(real))).toBeLessThan(0.3);
      });
    });
    plan.people.forEach((person, i) => {
      const mark = shapes
        .filter((s) => s.kind === "mark" && s.owner === `people[${i}]`)
        .flatMap((s) => s.points);
      const x = mark.reduce((sum, p) => sum + p[0], 0) / mark.length;
      const y = mark.reduce((sum, p) => sum + p[1], 0) / mark.length;
      plan.lights.forEach((light, k) => {
        const drawn = Math.hypot(starts[k][0] - x, starts[k][1] - y);
        const real = Math.hypot(
          light.position[0] - person.position[0],
          light.position[1] - person.position[1],
        );
        expect(Math.abs(drawn - millimetres(real))).toBeLessThan(0.3);
      });
    });
  });
});

describe("[SH7] what is said on every sheet", () => {
  const words = (name: string) => {
    const plan = PLANS[name];
    const pages = placementSheet(plan, readingFor(plan), { paper: "a4", units: "metric" });
    return pages.flatMap((page) => textsOf(page).map((t) => t.text)).join(" ");
  };
  it.each(Object.keys(PLANS))("%s: estimates, never a promise, no clock, no green", (name) => {
    const text = words(name);
    expect(text).toMatch(/estimates only/);
    expect(text).toMatch(/licensed people decide/);
    for (const caution of [/bag on every stand/i, /Mains/, /cable/, /hot/, /discharge/, /photosensitive/])
      expect(text).toMatch(caution);
    expect(text).not.toMatch(/\bsafe|\bOK\b|\bokay\b/i);
    expect(text).not.toMatch(/NaN|undefined|Infinity|null/);
    const [page] = placementSheet(PLANS[name], readingFor(PLANS[name]), { paper: "a4", units: "metric" });
    for (const [, hex] of page.matchAll(/"#([0-9a-f]{6})"/g)) {
      const [r, g, b] = [0, 2, 4].map((k) => Number.parseInt(hex.slice(k, k + 2), 16));
      expect(g > r + 12 && g > b + 12, hex).toBe(false);
    }
  });
  it("a light over somebody is called out by both names, another is not", () => {
    expect(words("arm overhead")).toContain("top hangs over cellist: counterweight");
    expect(words("one light")).not.toContain("hangs over");
  });
  it.each(["one light", "quartet"])(
    "%s: a sentence begins large, and what the mains lack is asked for",
    (name) => {
      // "3.40 m. Look up": a full stop after a word or unit, not the one in a number
      expect(words(name)).not.toMatch(/[a-zΩ)]\. (?:look|while|on the mean|everything|no circuit|how often)/);
      expect(words(name)).toContain("No circuit is given");
      expect(words(name)).not.toContain("at least 0 W");
    },
  );
  it("a light at the ceiling is called out once, in the units of the sheet", () => {
    const low = planOf({
      room: { width: 7, depth: 9, height: 2.9 },
      lights: [
        {
          name: "key",
          position: [4.45, 3.55, 2.45],
          direction: { at: [3.5, 4.5, 1.55] },
          face: { shape: "disc", width: 1.5 },
          output: { wattSeconds: 400 },
        },
      ],
    });
    const warning = {
      about: "place" as const,
      path: "lights[0]",
      state: "key may touch the ceiling",
      margin: "ceiling 2.90 m",
      remedy: "lower it",
    };
    const reading = { ...readingFor(low), warnings: [warning] };
    const text = placementSheet(low, reading, { paper: "a4", units: "feet" })
      .flatMap((page) => textsOf(page).map((t) => t.text))
      .join(" ");
    expect(text.match(/ceiling: /g)).toHaveLength(1);
    expect(text).toContain("key at the ceiling:");
    expect(text).not.toContain("2.90 m");
  });
  it("a light that is off is said to be off and has no reading", () => {
    const text = words("arm overhead");
    expect(text).toContain("Off in this plan: fill.");
    expect(text).toMatch(/off 400 Ws, 2\.2 stops down/);
  });
  it("one light alone reads its own share, direct and bounced: f = sqrt(100 x 100 / 250)", () => {
    // 100 lx.s flat at ISO 100 is f/6.32 = f/5.6 + 0.3 by hand
    expect(words("one light")).toContain("alone f/5.6 + 0.3");
  });
  it("the same plan gives the same bytes", () => {
    const make = () =>
      placementSheet(PLANS.quartet, readingFor(PLANS.quartet), { paper: "a4", units: "metric" });
    expect(make()).toEqual(make());
  });
  it("markup in names is text", () => {
    const plan = planOf({ title: "<script>&", people: [{ name: '"><b>', position: [0, 0] }] });
    const [page] = placementSheet(plan, readingFor(plan), { paper: "a4", units: "metric" });
    expect(page).not.toContain("<script>");
    expect(page).not.toContain("<b>");
    expect(page).toContain("&lt;script&gt;&amp;");
  });
});

it("[SH8] what stands on page two goes on until all is said: 64 lights, 64 panels, 64 meters", () => {
  const grid = (i: number) => [0.5 + (i % 8) * 1.1, 0.5 + Math.floor(i / 8) * 1.1, 2];
  const many = Array.from({ length: 64 }, (_, i) => i);
  const plan = planOf({
    room: { width: 10, depth: 10, height: 4 },
    lights: many.map((i) => ({
      name: `head ${i}`,
      position: grid(i),
      direction: { bearing: i },
      face: { shape: "disc", width: 0.3 },
      output: { lumenSeconds: 100 },
    })),
    panels: many.map((i) => ({
      name: `board ${i}`,
      position: [...grid(i).slice(0, 2), 1.3],
      direction: { bearing: 0 },
    })),
    people: [{ name: "cellist", position: [5, 9.4] }],
    meters: many.map((i) => ({ name: `meter ${i}`, position: [...grid(i).slice(0, 2), 1.5] })),
  });
  const pages = placementSheet(plan, readingFor(plan), { paper: "a4", units: "metric" });
  const texts = pages.flatMap((page) => textsOf(page).map((t) => t.text));
  for (const i of many)
    for (const kind of ["head", "board", "meter"]) expect(texts).toContain(`${kind} ${i}`);
  for (const page of pages) {
    const boxes = textsOf(page);
    for (const [i, a] of boxes.entries())
      for (const b of boxes.slice(i + 1)) expect(overlap(a.box, b.box), `${a.text} × ${b.text}`).toBe(false);
  }
});

describe("[SH9] side and elevation are seen from the nose, in the head's own axes", () => {
  it("straight ahead of a turned head is 0/0, and own left is positive", () => {
    const base = { room: { width: 7, depth: 9, height: 3.4 } };
    const person = { name: "cellist", position: [3.5, 4.6], facing: 180, head: { turn: 30 } };
    const plan = planOf({ ...base, people: [person] });
    const [nose] = measurePlaces(plan).noses;
    // facing the camera side and turned 30° to own left (+x): the nose points along (sin 30°, -cos 30°)
    const at = [
      nose.tip[0] + 2 * Math.sin(Math.PI / 6),
      nose.tip[1] - 2 * Math.cos(Math.PI / 6),
      nose.tip[2],
    ];
    const light = {
      name: "key",
      position: at,
      direction: { bearing: 0 },
      face: { shape: "point" },
      output: { lumenSeconds: 1 },
    };
    const seen = measurePlaces(planOf({ ...base, people: [person], lights: [light] })).lights[0].nose!;
    expect(seen.distance_m).toBeCloseTo(2, 4);
    expect(seen.side_deg).toBeCloseTo(0, 3);
    expect(seen.elevation_deg).toBeCloseTo(0, 3);
    const aside = { ...light, position: [nose.tip[0], nose.tip[1] - 1.2, nose.tip[2] + 1.2] };
    const other = measurePlaces(planOf({ ...base, people: [person], lights: [aside] })).lights[0].nose!;
    // straight toward the camera side is 30° to the right of a nose that is turned to own left
    expect(other.side_deg).toBeCloseTo(-30, 3);
    expect(other.elevation_deg).toBeCloseTo(45, 3);
  });
});

it("[SH13] a sheet without people looks as it did (golden/): look at it before it is renewed", async () => {
  const plan = PLANS["nobody yet"];
  const pages = placementSheet(plan, readingFor(plan), {
    paper: "a4",
    units: "metric",
    date: "29 November 2026",
  });
  for (const [i, page] of pages.entries())
    await expect(page).toMatchFileSnapshot(`../../golden/sheet-nobody-yet-${i + 1}.svg`);
});

describe("[AP21] marks of their own are on the sheet", () => {
  it("in the table from both walls, in the order of setting up, drawn and named", () => {
    const pages = sheetOf({ name: "", plan: PLANS["taped marks"], paper: "a4", units: "metric" });
    const said = pages.flatMap((page) => textsOf(page).map(({ text }) => text)).join(" ");
    expect(said).toMatch(/tape on the ?floor/);
    expect(said).toContain("Tape under the cellist: left wall 3.50 m");
    expect(
      pages
        .flatMap(shapesOf)
        .filter(({ owner }) => owner === "marks[1]")
        .map(({ kind }) => kind),
    ).toEqual(["tape", "tape"]);
  });
});
