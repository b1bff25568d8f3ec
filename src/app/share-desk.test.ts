import { describe, expect, test } from "vitest";
import type { Placed } from "../shoots/index.ts";
import { type News, type ShareState, type Sharing, StoreAway, WorkError } from "../workbench/index.ts";
import { ShareDesk } from "./share-desk.ts";
import { digitsShown, sharedWords, standWords, thingName, timeLeft } from "./share-words.ts";

const OFF: ShareState = { isOn: false, addresses: [], code: null, devices: [], problem: null };
const ON: ShareState = {
  ...OFF,
  isOn: true,
  addresses: ["http://192.168.1.20:7285/"],
  code: { digits: "004217", endsAt: "2026-11-26T10:05:00Z" },
};
const device = (name: string, isLooking: boolean) => ({
  id: name,
  name,
  pairedAt: "2026-11-26T10:00:00Z",
  isLooking,
});
const tick = (thing: string): Placed => ({ thing, by: "tablet", at: "2026-11-26T10:00:00Z", setUp: "a1" });

/** Sharing that answers when the test says so. */
function held() {
  const waiting: { give: (state: ShareState) => void; fail: (why: Error) => void }[] = [];
  const answer = () => new Promise<ShareState>((give, fail) => waiting.push({ give, fail }));
  const sharing: Sharing = {
    state: answer,
    turn: answer,
    newCode: answer,
    revoke: answer,
    qr: async () => null,
  };
  return { sharing, waiting };
}

describe("[AP131] the panel follows who looks and what stands", () => {
  test("an answer that comes late does not undo a newer one", async () => {
    const { sharing, waiting } = held();
    const desk = new ShareDesk(sharing, null);
    const looked = desk.look();
    const turned = desk.turn(true);
    waiting[1]?.give(ON);
    await turned;
    waiting[0]?.give(OFF);
    await looked;
    expect(desk.store.get().share).toEqual(ON);
  });

  test("what was asked for is known as soon as it is answered, though news of it is being asked for", async () => {
    const { sharing, waiting } = held();
    const desk = new ShareDesk(sharing, null);
    const turned = desk.turn(true);
    const looked = desk.look();
    waiting[0]?.give(ON);
    await turned;
    expect(desk.store.get().share).toEqual(ON);
    waiting[1]?.give({ ...ON, code: null });
    await looked;
    expect(desk.store.get().share).toEqual({ ...ON, code: null });
  });

  test("news of others is asked for again: who looks, and what stands of the work on the table", async () => {
    const { sharing, waiting } = held();
    const stands: Placed[] = [];
    const desk = new ShareDesk(sharing, { placed: async () => [...stands] });
    let tell: (news: News) => void = () => {};
    desk.follow({
      subscribe: (listener) => {
        tell = listener;
        return () => {};
      },
    });
    await desk.lookAt("poster");
    stands.push(tick("lights/key"));
    tell({ kind: "placed", key: "another" });
    await Promise.resolve();
    expect(desk.store.get().placed).toEqual([]);
    tell({ kind: "placed", key: "poster" });
    await new Promise((resolve) => setTimeout(resolve));
    expect(desk.store.get().placed).toEqual(stands);
    tell({ kind: "share" });
    waiting[0]?.give(ON);
    await new Promise((resolve) => setTimeout(resolve));
    expect(desk.store.get().share).toEqual(ON);
  });

  test("another work has other ticks, at once", async () => {
    const { sharing } = held();
    const desk = new ShareDesk(sharing, { placed: async (key) => (key === "a" ? [tick("camera")] : []) });
    await desk.lookAt("a");
    expect(desk.store.get().placed).toHaveLength(1);
    const looking = desk.lookAt("b");
    expect(desk.store.get().placed).toEqual([]);
    await looking;
    expect(desk.store.get()).toMatchObject({ placedOf: "b", placed: [] });
  });
});

describe("[AP132] what is refused is said with its cure and changes nothing", () => {
  test("a refusal stands until something is done", async () => {
    const { sharing, waiting } = held();
    const desk = new ShareDesk(sharing, null);
    const first = desk.turn(true);
    waiting[0]?.fail(new WorkError("the port is busy", "switch the other one off"));
    await first;
    expect(desk.store.get()).toMatchObject({
      share: null,
      refusal: { problem: "the port is busy", cure: "switch the other one off" },
    });
    const second = desk.turn(true);
    waiting[1]?.give(ON);
    await second;
    expect(desk.store.get()).toMatchObject({ share: ON, refusal: null });
  });

  test("a server that is away leaves what is known", async () => {
    const { sharing, waiting } = held();
    const desk = new ShareDesk(sharing, { placed: () => Promise.reject(new StoreAway()) });
    const looked = desk.look();
    waiting[0]?.fail(new StoreAway());
    await looked;
    await desk.lookAt("a");
    expect(desk.store.get()).toEqual({ share: null, placed: [], placedOf: "a", refusal: null });
  });
});

describe("[AP133] the words of sharing", () => {
  test("the code in two breaths, and the time it has left", () => {
    expect(digitsShown("004217")).toBe("004 217");
    const now = new Date("2026-11-26T10:00:55Z");
    expect(timeLeft("2026-11-26T10:05:00Z", now)).toBe("4:05");
    expect(timeLeft("2026-11-26T10:00:55.200Z", now)).toBe("0:01");
    expect(timeLeft("2026-11-26T10:00:55Z", now)).toBeNull();
  });
  test("who looks", () => {
    expect(sharedWords(null)).toBeNull();
    expect(sharedWords(OFF)).toBeNull();
    expect(sharedWords(ON)).toBe("shared, nobody looks");
    const devices = [device("a", true), device("b", false), device("c", true)];
    expect(sharedWords({ ...ON, devices })).toBe("shared, 2 look");
    expect(sharedWords({ ...ON, devices: devices.slice(0, 2) })).toBe("shared, 1 looks");
  });
  test("how much stands, of what is in the plan", () => {
    const things = new Map(["camera", "lights/key", "lights/rim"].map((thing) => [thing, "a1"]));
    expect(standWords(things, [])).toBe("none of 3 things stands yet");
    expect(standWords(things, [tick("lights/key"), tick("lights/gone")])).toBe("1 of 3 stands");
    expect(standWords(things, [tick("lights/key"), tick("camera")])).toBe("2 of 3 stand");
    const moved = new Map([...things, ["lights/key", "b2"]] as const);
    expect(standWords(moved, [tick("lights/key")])).toBe("none of 3 things stands, 1 changed since");
    expect(standWords(moved, [tick("lights/key"), tick("camera")])).toBe("1 of 3 stands, 1 changed since");
    expect(thingName("panels/V-flat, left/right")).toBe("V-flat, left/right");
    expect(thingName("camera")).toBe("camera");
  });
});
