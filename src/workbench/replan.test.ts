import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { checkPlan, type Gear, type Plan, type Room } from "../plan/index.ts";
import type { PlanReading } from "../reading/index.ts";
import type { ReplanAsk, Replanned } from "../shoots/index.ts";
import { createComputer } from "./computer.ts";
import type { SearchFinder } from "./find.ts";
import { replan } from "./replan.ts";

function open(document: unknown): Plan {
  const checked = checkPlan(document);
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  return checked.plan;
}
const example = (name: string) => open(JSON.parse(readFileSync(`examples/${name}.json`, "utf8")));

const computer = createComputer();
/** The search itself, of its plainest kind and its best only: the whole of it has tests of its own. */
const oneLight: SearchFinder = {
  search: async (plan, request, options) => {
    if (request.task.kind !== "one light") return { candidates: [], tried: 0 };
    const { candidates, tried } = await computer.search(plan, request, options);
    return { candidates: candidates.slice(0, 1), tried };
  },
  settle: computer.settle,
  hold: computer.hold,
};
const noFinders = () => {
  throw new Error("nothing was to be searched");
};
const CELLIST = example("cellist");
const REMBRANDT = example("manual-rembrandt");
const roomOf = (plan: Plan, width: number, depth: number, height: number): Room => ({
  ...(plan.room as Room),
  width,
  depth,
  height,
});

/** Each read when it is first asked for. */
const readings = new Map<Plan, Promise<PlanReading>>();
function readingOf(plan: Plan): Promise<PlanReading> {
  const read = readings.get(plan) ?? computer.read(plan, "coarse");
  readings.set(plan, read);
  return read;
}

const again = async (plan: Plan, ask: ReplanAsk, finders: () => readonly SearchFinder[] = noFinders) =>
  replan(plan, await readingOf(plan), ask, { computer, finders, units: "metric", quality: "coarse" });
const lines = ({ changes }: Replanned) =>
  changes.map(({ change, what, which }) => `${what} ${which}: ${change}`);

describe("[SO8] the set-up as it is is carried over where the look holds there", () => {
  it("the cellist in a smaller room: all of it moved, the key under a lower ceiling and turned down", async () => {
    const out = await again(CELLIST, { room: roomOf(CELLIST, 5, 7, 3), gear: null });
    expect(out.way).toBe("moved over");
    expect(out.lost).toEqual([]);
    expect(out.kept.every(({ isKept }) => isKept)).toBe(true);
    expect(lines(out)).toContain(
      "set place in the room: all of it 1.00 m to the left, 1.20 m to the camera side",
    );
    expect(out.reasons).toContain("the ceiling is 40 cm lower: key 24 cm nearer, power 0.4 stop down");
    // what it says is what is there
    const face = (await computer.read(out.plan, "coarse")).people[0]?.face;
    const was = (await readingOf(CELLIST)).people[0]?.face;
    expect(face?.pattern).toBe(was?.pattern);
    expect(Math.abs(Math.log2((face?.litCheek ?? 0) / (was?.litCheek ?? 1)))).toBeLessThanOrEqual(0.1);
    expect(Math.abs((face?.ratioStops ?? 9) - (was?.ratioStops ?? 0))).toBeLessThanOrEqual(0.2);
    expect(out.plan.camera.fNumber).toBe(CELLIST.camera.fNumber);
    expect(out.plan.title).toBe("Cellist, season poster, planned again");
  });

  it("in the same room nothing changes but the title", async () => {
    const out = await again(CELLIST, { room: CELLIST.room, gear: null });
    expect(out.way).toBe("as it was");
    expect(lines(out)).toEqual(["plan title: renamed"]);
    expect(out.plan).toEqual({ ...CELLIST, title: out.plan.title });
  });

  it("two lights keep what each gives, whatever the walls send back", async () => {
    // the manual's dark room with its ceiling painted, and walls farther off
    const room = roomOf(REMBRANDT, 5.6, 6.6, 3);
    const painted = { ...room, reflectance: { ...room.reflectance, ceiling: 0.75, near: 0.5 } };
    const out = await again(REMBRANDT, { room: painted, gear: null });
    expect(out.way).toBe("moved over");
    expect(out.reasons.find((reason) => reason.includes("fill"))).toMatch(
      /^the room sends back other light: fill, power .* down$/,
    );
    expect(out.kept.every(({ isKept }) => isKept)).toBe(true);
  });
});

describe("[SO9] where it does not hold, and with other gear, the look is searched for", () => {
  it("manual Rembrandt with one head of another make", async () => {
    const gear = open({
      ...REMBRANDT,
      brief: {
        gear: {
          lights: [
            {
              name: "head 500",
              full: { wattSeconds: 500 },
              fronts: [{ name: "dish 55", face: { shape: "disc", width: 0.55 } }],
            },
          ],
        },
      },
    }).brief?.gear as Gear;
    const out = await again(REMBRANDT, { room: REMBRANDT.room, gear }, () => [oneLight]);
    expect(out.way).toBe("found");
    expect(out.reasons[0]).toMatch(/^other gear was named: one light, from own left/);
    expect(out.plan.lights.map(({ name }) => name)).toEqual(["head 500"]);
    expect(lines(out)).toContain("main there: taken away");
    expect(lines(out)).toContain("head 500 there: added");
    expect(out.kept.find(({ what }) => what === "pattern")).toEqual({
      what: "pattern",
      before: "Rembrandt",
      after: "Rembrandt",
      isKept: true,
    });
    // camera and sitter are where they were, and free as they were
    expect(out.plan.camera).toEqual(REMBRANDT.camera);
    expect(out.plan.people).toEqual(REMBRANDT.people);
    expect(out.plan.brief?.gear).toEqual(gear);
  });

  it("where nothing better is found it is moved over, and what it cannot keep is told", async () => {
    const nothing: SearchFinder = { ...oneLight, search: async () => ({ candidates: [], tried: 0 }) };
    const room = roomOf(CELLIST, 4, 5, 2.5);
    const out = await again(CELLIST, { room, gear: null }, () => [nothing]);
    expect(out.way).toBe("moved over");
    expect(out.lost.join("; ")).toMatch(/^pattern: Rembrandt became Loop; ratio: 2.0 stops became/);
    expect(out.reasons.find((reason) => reason.includes(": camera "))).toMatch(
      /^the room is 4.00 m shallower: camera .* cm nearer, lens .* mm shorter$/,
    );
    const gear: Gear = { lights: [], panels: [] };
    const pinned = { ...CELLIST, lights: CELLIST.lights.map((light) => ({ ...light, pinned: true })) };
    await expect(again(pinned, { room: CELLIST.room, gear }, () => [nothing])).rejects.toThrow(
      /no set-up for this look was found with that gear; name more lights/,
    );
  });
});

describe("[SO10] what cannot be planned again is told with its cure", () => {
  it.each([
    ["too low", roomOf(CELLIST, 5, 7, 1.6), /too low for cellist: 1.60 m high, and 1.72 m are needed/],
    ["too narrow", roomOf(CELLIST, 0.5, 7, 3), /too small: cellist has no 30 cm/],
    ["too shallow", roomOf(CELLIST, 5, 1.6, 3), /too small: the (camera|backdrop) would be nearer/],
  ])("a room that is %s", async (_, room, words) => {
    await expect(again(CELLIST, { room, gear: null })).rejects.toThrow(words);
  });

  it("nobody, and no light", async () => {
    const nobody = { ...CELLIST, people: [] };
    await expect(again(nobody, { room: null, gear: null })).rejects.toThrow(
      /nobody is on the mark.*add a person/,
    );
    const dark = { ...CELLIST, lights: CELLIST.lights.map((light) => ({ ...light, on: false })) };
    await expect(again(dark, { room: null, gear: null })).rejects.toThrow(/no light.*switch one on/);
  });

  it("whoever stops it stops it", async () => {
    const stopped = replan(
      CELLIST,
      await readingOf(CELLIST),
      { room: roomOf(CELLIST, 5.1, 7, 3), gear: null },
      { computer, finders: noFinders, units: "metric", quality: "coarse" },
      { signal: { aborted: true } },
    );
    await expect(stopped).rejects.toThrow();
  });
});
