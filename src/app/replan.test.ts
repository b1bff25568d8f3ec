import { describe, expect, it } from "vitest";
import cellistFile from "../../examples/cellist.json";
import rembrandtFile from "../../examples/manual-rembrandt.json";
import { KITS } from "../gear/index.ts";
import { checkPlan, type Plan } from "../plan/index.ts";
import { type Computer, createComputer, type Finder } from "../workbench/index.ts";
import { askOf, formFor, gearChoices, knownRooms, roomChoices, sizedRoom } from "./replan-ask.ts";
import { ReplanRun, type ReplanState } from "./replan-run.ts";

function open(document: unknown): Plan {
  const checked = checkPlan(document);
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  return checked.plan;
}
const CELLIST = open(cellistFile);
const REMBRANDT = open(rembrandtFile);
const MEASURED = open({
  ...CELLIST,
  room: { width: 7, depth: 9, height: 3.4, calibration: { bounceStops: 0.3, uncertaintyStops: 0.1 } },
});
const OTHER = open({ ...CELLIST, title: "Quartet", room: { width: 8, depth: 9, height: 4 } });

describe("[AP126] what a look is planned again for", () => {
  it("begins with the plan's own room and gear, which asks for nothing else", () => {
    expect(askOf(MEASURED, formFor(MEASURED), [])).toEqual({ room: MEASURED.room, gear: null });
  });

  it("another size keeps the walls, and what was measured of a room stays with that room", () => {
    const form = { ...formFor(MEASURED), size: { width: 5, depth: 9, height: 3.4 } };
    const { room } = askOf(MEASURED, form, []);
    expect(room).toEqual({ ...MEASURED.room, width: 5, calibration: null });
  });

  it("a size that is no room is refused with the bounds", () => {
    expect(sizedRoom(CELLIST, { width: 0.2, depth: 5, height: 3 })).toEqual({
      why: "It must be a number from 0.5 to 100 m; it is 0.2.",
    });
  });

  it("rooms of other plans, each once, and never the plan's own", () => {
    const list = ["a", "b", "c", "d"].map((key) => ({ key, title: `plan ${key}` }));
    const plans = new Map<string, Plan | null>([
      ["a", CELLIST],
      ["b", OTHER],
      ["c", OTHER],
      ["d", null],
    ]);
    const rooms = knownRooms(list, plans);
    expect(rooms.map(({ name }) => name)).toEqual(["plan a", "plan b"]);
    expect(roomChoices(CELLIST, rooms).map(([, text]) => text)).toEqual([
      "a room of another size",
      "the room of plan b",
      "the same room",
    ]);
    expect(askOf(CELLIST, { ...formFor(CELLIST), room: 1 }, rooms).room).toEqual(OTHER.room);
  });

  it("gear is what stands there, what the brief lists, or a usual kit", () => {
    const [kit] = KITS;
    const briefed = open({ ...CELLIST, brief: { gear: kit.gear } });
    expect(gearChoices(CELLIST).map(([value]) => value)).toEqual(["stands", ...KITS.map(({ name }) => name)]);
    expect(gearChoices(briefed)[1]?.[0]).toBe("brief");
    expect(askOf(briefed, { ...formFor(briefed), gear: "brief" }, []).gear).toEqual(briefed.brief?.gear);
    expect(askOf(CELLIST, { ...formFor(CELLIST), gear: kit.name }, []).gear).toEqual(kit.gear);
  });
});

describe("[AP127] planning again is told as it goes, stops at once, and fails in words", () => {
  const real = createComputer();
  const coarse: Computer & Finder = {
    ...real,
    read: (plan, _, options) => real.read(plan, "coarse", options),
  };
  const ask = { room: REMBRANDT.room, gear: null };
  const states = (run: ReplanRun): ReplanState[] => {
    const seen: ReplanState[] = [];
    run.store.subscribe(() => seen.push(run.store.get()));
    return seen;
  };

  it("is under way, then done", async () => {
    const run = new ReplanRun({ trials: coarse, finders: () => [coarse] });
    const seen = states(run);
    await run.plan(REMBRANDT, ask, "metric");
    expect(seen[0]?.running?.what).toBe("reading the look as it is");
    expect(seen.at(-1)?.done?.way).toBe("as it was");
    expect(seen.at(-1)?.running).toBe(null);
  });

  it("stopped, nothing has changed", async () => {
    const run = new ReplanRun({
      trials: {
        ...coarse,
        read: (plan, _, options) => {
          run.stop();
          return real.read(plan, "coarse", options);
        },
      },
      finders: () => [coarse],
    });
    await run.plan(REMBRANDT, { room: null, gear: null }, "metric");
    expect(run.store.get()).toEqual({ running: null, done: null, why: "Stopped. Nothing has changed." });
  });

  it("what cannot be planned is told with its cure", async () => {
    const run = new ReplanRun({ trials: coarse, finders: () => [coarse] });
    const room = sizedRoom(REMBRANDT, { width: 5, depth: 7, height: 1.6 });
    await run.plan(REMBRANDT, { room: "room" in room ? room.room : null, gear: null }, "metric");
    expect(run.store.get().why).toBe(
      "The room is too low for sitter: 1.60 m high, and 1.70 m are needed. Give a higher room, or let the sitter sit.",
    );
  });
});
