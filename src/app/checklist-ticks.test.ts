import { describe, expect, it } from "vitest";
import type { Placed } from "../shoots/index.ts";
import { StoreAway, WorkError } from "../workbench/index.ts";
import { TickDesk } from "./checklist-ticks.ts";

const AT = "2026-11-26T10:00:00Z";

/** A library that keeps ticks of one work, and may be away or refuse. */
function library() {
  const kept = new Map<string, Placed>();
  const state = { isAway: false, refuses: false };
  return {
    kept,
    state,
    placed: async () => {
      if (state.isAway) throw new StoreAway();
      return [...kept.values()];
    },
    place: async (_: string, thing: string, isPlaced: boolean, by: string) => {
      if (state.isAway) throw new StoreAway();
      if (state.refuses) throw new WorkError(`there is no "${thing}" in that plan`, "look at the plan again");
      if (isPlaced) kept.set(thing, { thing, by: `${by} at the server`, at: AT, setUp: "m" });
      else kept.delete(thing);
    },
  };
}

const things = (desk: TickDesk) => desk.store.get().placed.map(({ thing }) => thing);

describe("[CK6] ticks are the library's, and this window's own while it does not answer", () => {
  it("a tick is handed over, and what comes back is what others see", async () => {
    const far = library();
    const desk = new TickDesk(far);
    await desk.lookAt("work");
    await desk.put("lights/key", "m", true, AT);
    expect(desk.store.get().placed).toEqual([...far.kept.values()]);
    expect(desk.store.get().isHereAlone).toBe(false);
    await desk.put("lights/key", "m", false, AT);
    expect([things(desk), far.kept.size]).toEqual([[], 0]);
  });
  it("it shows at once, before anybody has answered", () => {
    const desk = new TickDesk({ placed: () => new Promise(() => {}), place: () => new Promise(() => {}) });
    void desk.lookAt("work");
    void desk.put("camera", "m", true, AT);
    expect(things(desk)).toEqual(["camera"]);
  });
  it("while the server is away ticks stay here and say so, and are handed over when it is back", async () => {
    const far = library();
    const desk = new TickDesk(far);
    await desk.lookAt("work");
    await desk.put("camera", "m", true, AT);
    far.state.isAway = true;
    await desk.put("lights/key", "m", true, AT);
    await desk.put("camera", "m", false, AT);
    expect([things(desk), desk.store.get().isHereAlone]).toEqual([["lights/key"], true]);
    expect([...far.kept.keys()]).toEqual(["camera"]);
    far.state.isAway = false;
    await desk.lookAt("work");
    expect([things(desk), desk.store.get().isHereAlone]).toEqual([["lights/key"], false]);
    expect([...far.kept.keys()]).toEqual(["lights/key"]);
  });
  it("one that is refused is taken back with the reason", async () => {
    const far = library();
    const desk = new TickDesk(far);
    await desk.lookAt("work");
    far.state.refuses = true;
    await desk.put("lights/gone", "m", true, AT);
    expect(things(desk)).toEqual([]);
    expect(desk.store.get().trouble).toContain('there is no "lights/gone"');
  });
  it("without a library they are this window's, and another plan has none of them", async () => {
    const desk = new TickDesk(null);
    await desk.lookAt("work");
    await desk.put("camera", "m", true, AT);
    expect([things(desk), desk.store.get().isHereAlone]).toEqual([["camera"], true]);
    await desk.lookAt("other");
    expect(things(desk)).toEqual([]);
  });
});
