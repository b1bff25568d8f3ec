import { describe, expect, it } from "vitest";
import { frontTop } from "../plan/index.ts";
import { parseLength } from "../units/index.ts";
import { safetyRows } from "./rows.ts";
import { supportRow, tippingWord } from "./support-rows.ts";
import { CAMERA, CELLIST, KEY, planOf, ROOM, WORKED } from "./testing/supports.ts";
import { type SafetyRow, sumWords } from "./types.ts";

const worked = (changes: object = {}) =>
  supportRow(
    { owner: "lights[0]", name: "key", support: { ...WORKED, ...changes }, height_m: 2.4, onMarkOf: null },
    "metric",
  );
const said = (row: SafetyRow | undefined) => (row?.sums ?? []).map(sumWords);
const rowOf = (plan: object, kind: SafetyRow["kind"]) =>
  safetyRows(planOf({ camera: CAMERA, ...plan }), "metric").find((row) => row.kind === kind);

describe("[SF4] what is set against what", () => {
  it("the worked stand, word by word", () => {
    expect(said(worked({ bag: 10 }))).toEqual([
      "everything on: 2.8 times as much holds, 27.2 N·m against 76.4 N·m",
      "without the bag: 1.8 times as much holds, 27.2 N·m against 49.4 N·m",
      "without the counterweight: close: 1.3 times as much holds, 27.2 N·m against 37.8 N·m",
      "without counterweight and bag: the load turns it over, 27.2 N·m against 10.8 N·m",
      "load off: 2.6 times as much holds, 14.3 N·m against 37.8 N·m",
      "load off, without the bag: the counterweight turns it over, 14.3 N·m against 10.8 N·m",
      "bag: 8.7 kg more than that, 1.3 kg to stand level, load on or off against 10.0 kg on it",
      "counterweight: 1.5 kg too little: the load pulls, 6.0 kg balances load and arm against 4.5 kg on it",
      expect.stringMatching(/^pushed at the load: a push as strong as \d\.\d kg weighs tips it/),
      expect.stringMatching(/^pushed, without the bag: /),
    ]);
  });
  it("what turns over is marked, and what is bare is summed once", () => {
    expect(worked().sums.map(({ isOver, what }) => [what, isOver])).toEqual([
      ["everything on", false],
      ["without the counterweight", true],
      ["load off", true],
      ["bag", true],
      ["counterweight", false],
      ["pushed at the load", false],
    ]);
  });
  it("with a leg under the load the arm is swung off it too; too much counterweight goes backwards", () => {
    expect(said(worked({ legUnderLoad: true }))[1]).toMatch(/^arm swung between two legs: 1\.8 times/);
    const heavy = { ...WORKED.arm, counterweight: 30 };
    expect(said(worked({ arm: heavy }))[1]).toMatch(
      /^everything on, towards the counterweight: the counterweight turns it over/,
    );
  });
  it("without an arm there is only the push: 7 kg at 2.4 m", () => {
    expect(said(worked({ arm: null }))).toEqual([
      "pushed at the load: a push as strong as 0.8 kg weighs tips it, 18.9 N·m (7.9 N × 2.40 m) against 18.9 N·m of its weight",
    ]);
  });
  it("[SF4] no word lets it pass, and a number is never rounded towards holding", () => {
    expect(tippingWord(10, 14.99, "load")).toBe("close: 1.4 times as much holds");
    expect(tippingWord(10, 15, "load")).toBe("1.5 times as much holds");
    expect(tippingWord(10, 10, "load")).toBe("the load turns it over");
    expect(tippingWord(0, 10, "load")).toBe("the load hangs between the feet");
  });
});

describe("[SF6] too little and too much counterweight", () => {
  it.each([
    [6.05, "the arm is balanced"],
    [5, "1.0 kg too little: the load pulls"],
    [8, "2.0 kg too much: the counterweight pulls"],
  ])("%s kg", (counterweight, word) => {
    const row = worked({ arm: { ...WORKED.arm, counterweight } });
    expect(row.sums.find(({ what }) => what === "counterweight")?.word).toBe(word);
  });
});

describe("[SF7] what is not given is asked for", () => {
  it("lights and panels without a support are named, and no sum is made of them", () => {
    const row = rowOf(
      { lights: [KEY], panels: [{ name: "card", position: [2, 4, 1], direction: { bearing: 90 } }] },
      "support",
    );
    expect(row).toMatchObject({
      heading: "Not weighed",
      sums: [],
      about: "key and card: no sum can be made.",
    });
    expect(row?.asks.join(" ")).toMatch(/weigh the head with its front/);
  });
  it("the arm of what hangs where its stand cannot be", () => {
    const asks = (x: number, arm: object | null) =>
      rowOf(
        {
          people: [CELLIST],
          lights: [{ ...KEY, position: [x, 4.6, 2.6], support: { load: 3, bag: 10, arm } }],
        },
        "support",
      )?.asks;
    expect(asks(3.8, null)).toEqual([
      "no arm is given, though its foot cannot stand at cellist's mark: measure the arm",
    ]);
    expect(asks(4.1, null)).toEqual([]);
    expect(asks(3.8, { reach: 1, mass: 1 })).toEqual([]);
  });
  it("bag, arm and counterweight that are not there; wheels", () => {
    const arm = { reach: 1, mass: 0, counterReach: 0.5, counterweight: 0 };
    expect(worked({ arm, isWheeled: true }).asks).toEqual([
      "no bag is given: hang one, and weigh it",
      "the arm itself is not weighed",
      "no counterweight is given",
      expect.stringMatching(/^wheels: lock them/),
    ]);
  });
});

describe("[SF10] the highest point, tilt and roll counted", () => {
  it("closed forms: a disc w/2 · cos tilt, a strip on end by its height, a square on its corner by √2", () => {
    const at = (face: object, direction: object, roll = 0) =>
      frontTop(
        planOf({ camera: CAMERA, lights: [{ ...KEY, position: [3, 3, 2], face, direction, roll }] })
          .lights[0],
      );
    expect(at({ shape: "disc", width: 1 }, { bearing: 37, tilt: -60 })).toBeCloseTo(2.25, 9);
    expect(at({ shape: "disc", width: 1 }, { bearing: 37, tilt: -60 }, 20)).toBeCloseTo(2.25, 9);
    expect(at({ shape: "rectangle", width: 0.3, height: 1.2 }, { bearing: 0, tilt: 0 })).toBeCloseTo(2.6, 9);
    expect(at({ shape: "rectangle", width: 1, height: 1 }, { bearing: 200, tilt: 0 }, 45)).toBeCloseTo(
      2 + Math.SQRT1_2,
      9,
    );
    expect(at({ shape: "polygon", sides: 8, width: 0.9 }, { bearing: 0, tilt: -45 })).toBeCloseTo(
      2 + 0.45 * Math.SQRT1_2,
      9,
    );
    expect(at({ shape: "polygon", sides: 8, width: 0.9 }, { bearing: 0, tilt: -90 })).toBeCloseTo(2, 9);
    expect(at({ shape: "point" }, { bearing: 0, tilt: -90 })).toBe(2);
  });
  it("2.40 m, an octagon of 90 cm tilted 15° down: 5 cm of air at 2.35 − 0.45 cos 15°, and less is called out", () => {
    const low = { width: 4, depth: 5, height: 2.4 };
    const face = { shape: "polygon", sides: 8, width: 0.9 };
    const highest = 2.35 - 0.45 * Math.cos(Math.PI / 12);
    const at = (z: number) =>
      rowOf(
        { room: low, lights: [{ ...KEY, position: [2, 2, z], direction: { bearing: 0, tilt: -15 }, face }] },
        "room",
      );
    expect(at(highest)?.sums[0]).toMatchObject({ word: "0.05 m of air", isOver: false });
    expect(at(highest + 0.02)?.sums[0]).toMatchObject({
      word: "0.03 m of air, less than the 0.05 m that is kept",
      isOver: true,
    });
    expect(at(highest + 0.1)?.sums[0]).toMatchObject({ word: "0.05 m too high: it touches", isOver: true });
  });
  it("how far behind a front that points down the ceiling is met: 0.5 m up, straight down, is 0.50 m", () => {
    const light = { ...KEY, position: [3, 3, 2.9], direction: { bearing: 0, tilt: -90 } };
    expect(rowOf({ room: ROOM, lights: [light] }, "room")?.about).toContain("key touches 0.50 m back");
    expect(rowOf({ room: ROOM, lights: [KEY] }, "room")?.about).not.toContain("touches");
  });
  it("without a room nothing is told", () => {
    expect(rowOf({ lights: [KEY] }, "room")).toMatchObject({
      sums: [],
      about: expect.stringMatching(/^No ceiling/),
    });
  });
});

describe("[SF11] sprinklers", () => {
  const under = (z: number, units: "metric" | "feet" = "metric") => {
    const light = { ...KEY, position: [3, 3, z], face: { shape: "point" } };
    const room = { ...ROOM, sprinklers: { below: 0.1 } };
    return safetyRows(planOf({ camera: CAMERA, room, lights: [light] }), units).find(
      ({ kind }) => kind === "room",
    );
  };
  it("45.7 cm under their plates: 3.30 − 0.457", () => {
    expect(under(2.84)?.sums[1]).toMatchObject({
      word: "0.46 m under the plates; 0.46 m is often asked",
      isOver: false,
    });
    expect(under(2.9)?.sums[1]).toMatchObject({
      word: "0.40 m under the plates, less than the 0.46 m often asked",
      isOver: true,
    });
    expect(under(3.32)?.sums[1].word).toBe("0.02 m above the plates: it stands in the spray");
    expect(under(2.9)?.asks).toEqual([]);
  });
  it("[SF17] 18 inches where the tape is in feet", () => {
    expect(under(2.9, "feet")?.sums[1].word).toContain("1′ 6″ often asked");
  });
  it("none given: somebody is to look up", () => {
    expect(rowOf({ room: ROOM, lights: [KEY] }, "room")?.asks[0]).toMatch(/^look up/);
  });
});

describe("[SF12] [SF13] circuits", () => {
  const wall = { name: "wall", volts: 230, amps: 16 };
  const head = { recycle: 1.25, lampWatts: 100, charging: 0.8 };
  const lit = (fields: object = {}, light: object = {}) =>
    rowOf(
      { lights: [{ ...KEY, head, ...light }], circuits: [wall], shooting: { everySeconds: 2 }, ...fields },
      "mains",
    );
  it("400 Ws at half power every 2 s, four fifths stored, lamp of 100 W: 225 W; charging 400 / (1.25 · 0.8) + 100", () => {
    expect(lit()?.sums).toMatchObject([
      {
        what: "on the mean, while it flashes",
        left: "1.0 A (225 W)",
        right: "12.8 A (2944 W), 80 % of 16.0 A",
      },
      { what: "while all charge at once", left: "2.2 A (500 W)", word: "10.6 A left", isOver: false },
    ]);
  });
  it("quicker than it recycles it draws no more than while it charges", () => {
    expect(lit({ shooting: { everySeconds: 0.1 } })?.sums[0].left).toBe("2.2 A (500 W)");
  });
  it("what else the circuit feeds counts; over four fifths, and over all of it, by word", () => {
    const with_W = (otherWatts: number, feeds = "hours") =>
      lit({ circuits: [{ ...wall, otherWatts, feeds }] })?.sums[1];
    expect(with_W(2500)).toMatchObject({ word: "0.2 A over what is asked of it for hours", isOver: true });
    expect(with_W(2500, "short")).toMatchObject({
      word: "3.0 A left",
      right: "16.0 A (3680 W)",
      isOver: false,
    });
    expect(with_W(3500)).toMatchObject({ word: "1.4 A over what it is marked with", isOver: true });
  });
  it("[SF7] what is not known is said: at least, at most", () => {
    const row = lit({}, { output: { lumenSeconds: 1000 } });
    expect(row?.sums[0]).toMatchObject({ left: "at least 0.4 A (100 W)", word: "at most 12.4 A left" });
    expect(row?.asks).toContain("watt-seconds not given, read them off the head: key");
    expect(lit({ shooting: null })?.sums).toHaveLength(1);
    // nothing at all is known of this one: no sum of 0 W is made of it
    expect(lit({}, { head: {}, output: { lumenSeconds: 1000 } })?.sums).toEqual([]);
    expect(lit({ shooting: null })?.asks).toContain("how often it flashes is not given");
  });
  it("a head is on its own circuit, else on the first; one that is off is named and not counted", () => {
    const rows = safetyRows(
      planOf({
        camera: CAMERA,
        lights: [
          { ...KEY, name: "key" },
          { ...KEY, name: "rim", head: { circuit: "kitchen" } },
          { ...KEY, name: "hair", on: false },
        ],
        circuits: [wall, { name: "kitchen", volts: 120, amps: 15 }],
      }),
      "metric",
    ).filter(({ kind }) => kind === "mains");
    expect(rows.map(({ about }) => about.slice(0, about.indexOf(".")))).toEqual(["Feeds key", "Feeds rim"]);
    expect(rows[0].asks).toContain("off in this plan and not counted: hair");
  });
  it("no circuit: watts stand against nothing, and are asked for", () => {
    const row = lit({ circuits: [] });
    expect(row).toMatchObject({ owner: null, heading: "Mains" });
    expect(row?.sums[0]).toMatchObject({
      left: "225 W",
      right: "no circuit given",
      word: "no telling whether it holds",
    });
    expect(row?.asks.join(" ")).toContain("read volts and amps off its fuse or breaker");
    expect(row?.about).toContain("inrush");
  });
});

describe("[SF17] units", () => {
  it("the same sums with a tape in feet", () => {
    const plan = planOf({
      camera: CAMERA,
      room: ROOM,
      people: [CELLIST],
      lights: [{ ...KEY, support: WORKED }],
    });
    const text = (units: "metric" | "feet") =>
      safetyRows(plan, units)
        .flatMap(({ about, sums }) => [about, ...sums.map(sumWords)])
        .join("\n");
    expect(text("feet")).not.toMatch(/\d m\b/);
    expect(text("feet")).not.toMatch(/\d (?:kg|N|N·m)\b/);
    const numbers = (units: "metric" | "feet", unit: RegExp) =>
      [...text(units).matchAll(new RegExp(`([\\d.]+) ${unit.source}`, "g"))].map(([, digits]) =>
        Number(digits),
      );
    // a pound is 0.45359237 kg (1959); a pound-force foot 1.3558179 N·m, a pound-force 4.4482216 N (NIST SP 811, from memory)
    for (const [metric, feet, each] of [
      [/kg/, /lb(?!f)/, 0.45359237],
      [/N·m/, /lbf·ft/, 1.3558179],
      [/N(?!·)/, /lbf(?!·)/, 4.4482216],
    ] as const) {
      const [here, there] = [numbers("metric", metric), numbers("feet", feet)];
      expect(there).toHaveLength(here.length);
      expect(here.length).toBeGreaterThan(0);
      here.forEach((value, i) => {
        expect(Math.abs(value - each * (there[i] ?? 0))).toBeLessThan(0.05 + 0.05 * each + 1e-9);
      });
    }
  });
  it("a push is told as a moment, with force and arm that give it", () => {
    const plan = planOf({ camera: CAMERA, room: ROOM, lights: [{ ...KEY, support: WORKED }] });
    for (const units of ["metric", "feet"] as const) {
      const pushes = safetyRows(plan, units)
        .flatMap(({ sums }) => sums)
        .filter(({ what }) => what.startsWith("pushed"));
      expect(pushes).toHaveLength(1);
      for (const { left, right } of pushes) {
        const [, moment, force, arm] =
          /^([\d.]+ (?:N·m|lbf·ft)) \(([\d.]+) (?:N|lbf) × (.+)\)$/.exec(left) ?? [];
        expect(right).toBe(`${moment} of its weight`);
        const long = parseLength(String(arm), units) / (units === "metric" ? 1 : 0.3048);
        // each of the three is printed to a tenth, a centimetre or a quarter of an inch
        const rounded = 0.05 * long + 0.05 + Number(force) * 0.011;
        expect(Math.abs(Number(force) * long - Number.parseFloat(String(moment)))).toBeLessThan(rounded);
      }
    }
  });
});
