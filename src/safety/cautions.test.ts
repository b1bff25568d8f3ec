import { describe, expect, it } from "vitest";
import type { Plan } from "../plan/index.ts";
import { cautionsFor, overheadCautions } from "./cautions.ts";
import type { Standing } from "./overhead.ts";
import { CAMERA, CELLIST, KEY, planOf, ROOM, WORKED } from "./testing/supports.ts";

/** Ears of somebody of 1.72 m, about. */
const standing = (plan: Plan): Standing[] =>
  plan.people.map(() => ({ staged: { shape: { earHeight: 1.6 } } }));
const basics = { camera: CAMERA, room: ROOM, people: [CELLIST] };
const over = (fields: object) => {
  const plan = planOf({ ...basics, ...fields });
  return overheadCautions(plan, standing(plan));
};
const here = (fields: object) => {
  const plan = planOf({ ...basics, ...fields });
  return cautionsFor(plan, standing(plan), "metric").filter(({ kind }) => kind === "here");
};
const held = (support: object) => ({ ...KEY, position: [1, 1, 2.4], support: { ...WORKED, ...support } });

describe("[SF9] what is over somebody", () => {
  const top = { ...KEY, position: [3.5, 4.5, 2.6], direction: { bearing: 0, tilt: -90 } };
  it("a light whose front comes within 0.6 m of the mark, over the ears; not one beside or below", () => {
    expect(over({ lights: [top] })).toEqual([
      expect.objectContaining({
        path: "lights[0]",
        people: ["cellist"],
        text: expect.stringMatching(/^key hangs over cellist: /),
      }),
    ]);
    expect(over({ lights: [{ ...top, position: [5, 4.5, 2.6] }] })).toEqual([]);
    expect(over({ lights: [{ ...top, position: [3.5, 4.5, 1.2] }] })).toEqual([]);
  });
  it("also one that is off: it hangs there all the same", () => {
    expect(over({ lights: [{ ...top, on: false }] })).toHaveLength(1);
  });
  it("a panel over somebody; a board that stands beside is none", () => {
    const scrim = {
      name: "scrim",
      position: [3.5, 4.4, 2.3],
      direction: { bearing: 0, tilt: -90 },
      width: 1.5,
      height: 1.5,
    };
    expect(over({ panels: [scrim] })[0].text).toMatch(/^scrim is over cellist: tied at two points/);
    expect(over({ panels: [{ ...scrim, position: [2.6, 4.6, 1.2], direction: { bearing: 90 } }] })).toEqual(
      [],
    );
  });
  it("an arm that can reach over somebody, its back counted, though the light does not; once, and not from afar", () => {
    const arm = { reach: 1.2, counterReach: 0.6, counterweight: 4.5 };
    const at = (x: number, support: object | null = { ...WORKED, arm }) =>
      over({ lights: [{ ...KEY, position: [x, 4.6, 2.4], support }] }).map(({ text }) => text);
    // 1.2 + 0.6 and 0.6 m round the mark: as far as 2.4 m
    expect(at(3.5 + 2.35)).toEqual([expect.stringMatching(/^key's arm can reach over cellist/)]);
    expect(at(3.5 + 2.45)).toEqual([]);
    expect(at(3.5 + 2.35, null)).toEqual([]);
    expect(at(3.5 + 0.5)).toEqual([expect.stringMatching(/^key hangs over cellist/)]);
  });
  it("an arm whose bearing is given by the line that it lies along, from load to counterweight; a panel's as well", () => {
    const at = (x: number, y: number, bearing: number) => {
      const arm = { ...WORKED.arm, bearing };
      return over({ lights: [{ ...KEY, position: [x, y, 2.4], support: { ...WORKED, arm } }] }).map(
        ({ text }) => text,
      );
    };
    const reaches = [expect.stringMatching(/^key's arm reaches over cellist: turn it clear/)];
    // the mark is at 3.5, 4.6. A load 1.5 m to its right, on an arm of 1.8 m that comes from the left: right over it
    expect(at(5, 4.6, 90)).toEqual(reaches);
    expect(at(5, 4.6, -270)).toEqual(reaches);
    // it comes from the right, or from behind: away from the mark
    for (const bearing of [270, 180, 0]) expect(at(5, 4.6, bearing)).toEqual([]);
    // along the set at 0.55 m from the mark, and at 0.9 m beyond the 0.6 m
    expect(at(4.4, 3.5, 180)).toEqual([]);
    expect(at(4.05 + 0.4, 5.7, 0)).toEqual([]);
    // its counterweight ends 0.55 m and 0.65 m short of the mark
    expect(at(3.5 + 1.8 + 0.55, 4.6, 90)).toEqual(reaches);
    expect(at(3.5 + 1.8 + 0.65, 4.6, 90)).toEqual([]);
    const panel = {
      name: "scrim",
      position: [5, 4.6, 2.4],
      direction: { bearing: 270 },
      width: 1,
      height: 1,
    };
    const arm = { ...WORKED.arm, bearing: 90 };
    expect(over({ panels: [{ ...panel, support: { ...WORKED, arm } }] }).map(({ text }) => text)).toEqual([
      expect.stringMatching(/^scrim's arm reaches over cellist/),
    ]);
  });
  it("of every bearing none reaches over somebody whom the arm could not, and some way does over each whom it could", () => {
    for (const x of [4.4, 5, 5.5, 5.85, 5.95]) {
      const people = (bearing: number | null) => {
        const support = { ...WORKED, arm: { ...WORKED.arm, bearing } };
        return over({ lights: [{ ...KEY, position: [x, 4.6, 2.4], support }] }).flatMap(
          (each) => each.people,
        );
      };
      const ways = Array.from({ length: 72 }, (_, i) => people(5 * i));
      expect(ways.some((way) => way.includes("cellist"))).toBe(people(null).includes("cellist"));
    }
  });
});

describe("[SF15] what turns over, and the order in which weights go on and come off", () => {
  it.each<[string, object, RegExp]>([
    [
      "as planned",
      { arm: { reach: 1.2 } },
      /^key's boom turns over: everything on, 27\.2 N·m against 10\.8 N·m\. More bag, more counterweight or a shorter arm/,
    ],
    [
      "backwards",
      { bag: 2, arm: { ...WORKED.arm, counterweight: 30 } },
      /everything on, towards the counterweight, .*More bag, less counterweight or a shorter arm/,
    ],
    [
      "either off",
      {},
      /without the counterweight, 27\.2 .*; load off, 14\.3 .* Whichever of load and counterweight is off/,
    ],
    [
      "load off",
      { mass: 2, bag: 1, load: 0.8 },
      /load off, .*The counterweight goes on after the load and comes off before it/,
    ],
    [
      "counterweight off",
      { mass: 8, arm: { ...WORKED.arm, counterweight: 5 } },
      /without the counterweight, 27\.2 .*The counterweight goes on before the load and comes off after it/,
    ],
    ["bag off", { bag: 10 }, /without counterweight and bag, .*The bag goes on first and comes off last\.$/],
    [
      "arm swung",
      { mass: 7, legUnderLoad: true, arm: { reach: 1.1 } },
      /arm swung between two legs, .*the whole stand is turned, not the arm\.$/,
    ],
  ])("%s", (_, support, text) => {
    expect(here({ lights: [held(support)] })).toEqual([
      { kind: "here", path: "lights[0]", people: [], text: expect.stringMatching(text) },
    ]);
  });
  it("what stands whatever comes off is not called out; neither is a plain stand", () => {
    expect(here({ lights: [held({ mass: 20, bag: 10 })] })).toEqual([]);
    expect(here({ lights: [held({ arm: null })] })).toEqual([]);
  });
  it("a panel's stand as well", () => {
    const panel = { name: "card", position: [1, 1, 1], direction: { bearing: 90 }, support: { ...WORKED } };
    expect(here({ panels: [panel] })[0]).toMatchObject({ path: "panels[0]" });
  });
});

describe("[SF10] [SF11] the ceiling and sprinklers", () => {
  it("by name, by how much, and to what height", () => {
    const room = { ...ROOM, height: 3, sprinklers: { below: 0.1 } };
    const texts = here({
      room,
      lights: [{ ...KEY, position: [1, 1, 2.4], direction: { bearing: 0, tilt: 0 } }],
    });
    expect(texts.map(({ text }) => text)).toEqual([
      "key at the ceiling: 0.00 m of air, less than the 0.05 m that is kept; lower it, tilt it, or take a smaller one.",
      "key under sprinklers: 0.10 m above the plates: it stands in the spray. Lower it to 2.44 m at its top; nothing hot beneath a plate.",
    ]);
  });
});

describe("[SF12] [SF13] mains", () => {
  it("a circuit that is over is named with its heads and its amps", () => {
    const circuits = [{ name: "wall", volts: 120, amps: 15 }];
    const light = { ...KEY, output: { wattSeconds: 1200 }, head: { recycle: 0.9, charging: 0.9 } };
    const lights = [light, { ...light, name: "rim" }];
    // 2 · 1200 / (0.9 · 0.9) / 120 V = 24.7 A
    expect(here({ lights, circuits }).map(({ text }) => text)).toEqual([
      "wall feeds key and rim: 24.7 A while all charge, 9.7 A over what it is marked with. Spread them over circuits, or flash slower.",
    ]);
    expect(here({ lights: [{ ...light, output: { wattSeconds: 200 } }], circuits })).toEqual([]);
  });
});

describe("[SF14] flashes that come fast", () => {
  const every = (everySeconds: number) =>
    here({ lights: [{ ...KEY, position: [1, 1, 2] }], shooting: { everySeconds } }).map(({ text }) => text);
  it("three a second and more are called out for themselves, by how many", () => {
    expect(every(0.35)).toEqual([]);
    expect(every(1 / 3)).toEqual([expect.stringMatching(/^3\.0 flashes a second/)]);
    expect(every(0.1)).toEqual([expect.stringMatching(/^10\.0 flashes a second.*Ask everyone/)]);
  });
  it("where nothing flashes there is none", () => {
    expect(here({ lights: [{ ...KEY, on: false }], shooting: { everySeconds: 0.1 } })).toEqual([]);
  });
});

describe("[SF16] the usual ones, every time", () => {
  it.each<[string, object]>([
    ["nothing", {}],
    ["a light", { lights: [KEY] }],
  ])("%s", (_, fields) => {
    const plan = planOf({ ...basics, ...fields });
    const all = cautionsFor(plan, standing(plan), "feet");
    const usual = all.filter(({ kind }) => kind === "usual").map(({ text }) => text);
    for (const word of [
      /bag on every stand/i,
      /cable/,
      /wet floor/,
      /hot/,
      /discharge/,
      /photosensitive epilepsy/,
    ])
      expect(usual.join(" ")).toMatch(word);
    expect(usual.at(-1)).toBe("Estimates only; local codes and licensed people decide.");
    expect(all.map(({ kind }) => kind)).toEqual(
      all.map(({ kind }) => kind).sort((a, b) => ORDER.indexOf(a) - ORDER.indexOf(b)),
    );
  });
  const ORDER = ["overhead", "here", "usual"];
});
