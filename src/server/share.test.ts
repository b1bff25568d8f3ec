/** Sharing as the workbench switches it, and as a device uses it, at a real port. */
import { createServer } from "node:net";
import { Hono } from "hono";
import { afterEach, describe, expect, it, vi } from "vitest";
import type { LivePlan, ShareState } from "../workbench/index.ts";
import { USUAL_SHARE_PORT } from "./share-listen.ts";
import { shareAddresses } from "./share-networks.ts";
import { addShareRoutes } from "./share-routes.ts";
import { keptPlan, SHARED_PLAN, type Shared, share } from "./testing/shared.ts";

let shared: Shared;
afterEach(() => shared?.stop());

const at = (address: string, internal = false) => ({
  address,
  internal,
  family: "IPv4" as const,
  netmask: "",
  mac: "",
  cidr: null,
});

describe("[SR2] where it listens", () => {
  const machine = {
    lo: [at("127.0.0.1", true)],
    docker0: [at("172.17.0.1")],
    tun0: [at("10.8.0.2")],
    wlan0: [at("192.168.1.20"), { ...at("fe80::1"), family: "IPv6" as const, scopeid: 1 }],
    eth0: [at("203.0.113.9")],
    eth1: [at("169.254.7.7")],
    eth2: [at("172.32.0.1")],
  };
  it("at private addresses that a phone can be beside, the usual networks first", () => {
    expect(shareAddresses(machine, undefined)).toEqual(["192.168.1.20", "169.254.7.7", "10.8.0.2"]);
  });
  it("at one that somebody has named, while it is this machine's", () => {
    expect(shareAddresses(machine, "203.0.113.9")).toEqual(["203.0.113.9"]);
    expect(shareAddresses(machine, "127.0.0.1")).toEqual(["127.0.0.1"]);
    expect(shareAddresses(machine, "192.168.1.21")).toEqual([]);
  });
});

describe("[SR1] off and on", () => {
  it("off until it is asked for; off again, nothing listens and nothing is remembered", async () => {
    shared = await share();
    const { sharing, ask } = shared;
    const state = await sharing.state();
    expect(state).toMatchObject({ isOn: true, devices: [], problem: null });
    expect(state.code?.digits).toMatch(/^\d{6}$/);
    expect(state.addresses).toEqual([`http://${await shared.host()}/`]);
    const cookie = await shared.pair("phone");
    const host = await shared.host();
    expect(await sharing.turn(false)).toEqual({
      isOn: false,
      addresses: [],
      code: null,
      devices: [],
      problem: null,
    });
    await expect(fetch(`http://${host}/`)).rejects.toThrow();
    await expect(sharing.newCode()).rejects.toThrow(/sharing is off.*switch it on first/);
    await sharing.turn(true);
    expect((await ask("/api/sheet", { cookie })).code).toBe(401);
  });
  it("switching twice at once ends as the last one says", async () => {
    shared = await share();
    const { sharing } = shared;
    await Promise.all([sharing.turn(false), sharing.turn(true), sharing.turn(true), sharing.turn(false)]);
    expect((await sharing.state()).isOn).toBe(false);
  });
});

describe("[SR3] what keeps it off is said", () => {
  it.each([
    ["no network", { addresses: () => [] }, /no private network.*join the studio's Wi-Fi/],
    ["no page", { files: new Map<string, string>() }, /has not been built.*npm run build/],
    ["an address of another machine", { addresses: () => ["192.0.2.77"] }, /cannot listen at 192\.0\.2\.77/],
  ])("%s", async (_, changes, told) => {
    shared = await share(changes);
    const { isOn, code, problem } = await shared.sharing.state();
    expect([isOn, code]).toEqual([false, null]);
    expect(`${problem?.problem}; ${problem?.cure}`).toMatch(told);
  });
  it("a busy port means another one, and that is said", async () => {
    const blocker = createServer();
    // when something else has the port already, it is as busy as it needs to be
    await new Promise<void>((resolve) => {
      blocker.once("error", () => resolve());
      blocker.listen(USUAL_SHARE_PORT, "127.0.0.1", resolve);
    });
    shared = await share({ port: USUAL_SHARE_PORT });
    const { isOn, addresses, problem } = await shared.sharing.state();
    expect(isOn).toBe(true);
    expect(new URL(addresses[0]).port).not.toBe(String(USUAL_SHARE_PORT));
    expect(problem?.problem).toMatch(/usual port 7285 is busy/);
    blocker.close();
  });
});

describe("[SR4] a network that is left", () => {
  afterEach(() => vi.useRealTimers());
  it.runIf(process.platform === "linux")(
    "is listened at no more; where none is left, sharing is off and says so",
    async () => {
      vi.useFakeTimers({ toFake: ["setInterval", "clearInterval"] });
      let addresses = ["127.0.0.1", "127.0.0.2"];
      shared = await share({ addresses: () => addresses });
      const { sharing } = shared;
      const [first, second] = (await sharing.state()).addresses;
      expect((await fetch(second)).status).toBe(200);
      const cookie = await shared.pair("phone");
      // away for a moment: the network is the same
      addresses = ["127.0.0.1"];
      vi.advanceTimersByTime(5000);
      addresses = ["127.0.0.1", "127.0.0.2"];
      vi.advanceTimersByTime(5000);
      expect((await sharing.state()).addresses).toEqual([first, second]);
      addresses = ["127.0.0.1"];
      vi.advanceTimersByTime(10_000);
      expect(await sharing.state()).toMatchObject({
        isOn: true,
        addresses: [first],
        problem: { problem: "this machine has left the network in which it was 127.0.0.2" },
      });
      await expect(fetch(second)).rejects.toThrow();
      const page = await shared.look(cookie);
      addresses = [];
      vi.advanceTimersByTime(10_000);
      await page.closed;
      expect(await sharing.turn(false)).toMatchObject({ isOn: false, devices: [] });
      await expect(fetch(first)).rejects.toThrow();
    },
  );
});

it("[SR11] a device that is taken off the list is told, closed and shut out within a second", async () => {
  shared = await share();
  const [mine, other] = [await shared.pair("mine"), await shared.pair("other")];
  const [page, beside] = [await shared.look(mine), await shared.look(other)];
  await page.until(({ kind }) => kind === "plan");
  const { devices } = await shared.sharing.state();
  expect(devices).toMatchObject([
    { name: "mine", isLooking: true },
    { name: "other", isLooking: true },
  ]);
  await shared.sharing.revoke(devices[0].id);
  await page.closed;
  expect(page.events.at(-1)).toMatchObject({
    kind: "ended",
    why: expect.stringMatching(/taken off the list/),
  });
  expect((await shared.look(mine)).code).toBe(401);
  expect((await shared.sharing.state()).devices).toMatchObject([{ name: "other", isLooking: true }]);
  await shared.sharing.turn(false);
  await beside.closed;
  expect(beside.events.at(-1)).toMatchObject({ kind: "ended", why: expect.stringMatching(/switched off/) });
});

describe("what a device does", () => {
  it("[SR23] ticks a thing of the plan, and looks again", async () => {
    shared = await share();
    const cookie = await shared.pair("Mira's phone");
    const page = await shared.look(cookie, "?units=feet");
    const tick = (thing: string, isPlaced: unknown) =>
      shared.ask("/api/placed", { method: "PUT", body: JSON.stringify({ thing, isPlaced }), cookie });
    expect((await tick("lights/key", true)).code).toBe(204);
    const plan = await page.until(({ plan }) => JSON.stringify(plan).includes("Mira's phone"));
    expect(plan.plan).toMatchObject({ units: "feet" });
    const { things } = plan.plan as LivePlan;
    expect(things.flatMap(({ thing, placed }) => (placed === null ? [] : [[thing, placed.by]]))).toEqual([
      ["lights/key", "Mira's phone"],
    ]);
    expect((await tick("lights/key", false)).code).toBe(204);
    expect(shared.placed).toEqual([]);
    expect(JSON.parse((await tick("lights/none", true)).body)).toEqual({
      problem: 'there is no "lights/none" in that plan',
      cure: "look at the plan again",
    });
    expect((await tick("lights/key", "yes")).code).toBe(400);
  });
  it("[PN12] what the plan changes after it was ticked is told to every device, until it is ticked anew", async () => {
    shared = await share();
    const [one, two] = [await shared.pair("Mira"), await shared.pair("Ana")];
    const tick = (cookie: string) =>
      shared.ask("/api/placed", {
        method: "PUT",
        body: JSON.stringify({ thing: "lights/key", isPlaced: true }),
        cookie,
      });
    const key = (event: Record<string, unknown>) =>
      (event.plan as LivePlan | undefined)?.things.find(({ thing }) => thing === "lights/key")?.placed;
    await tick(one);
    const [light] = SHARED_PLAN.lights;
    const plan = { ...SHARED_PLAN, lights: [{ ...light, position: [3, 2, 2.3] }] };
    await shared.parts.store.save("a-work", { plan, history: null, revision: 2 });
    // looked at for the first time after the change
    const page = await shared.look(two);
    await page.until((event) => key(event)?.isOld === true);
    await tick(two);
    expect(key(await page.until((event) => key(event)?.isOld === false))).toMatchObject({ by: "Ana" });
  });
  it("[SR24] a reading becomes one step of the kept work, also while a window saves", async () => {
    shared = await share();
    const { store, news } = shared.parts;
    const cookie = await shared.pair("Mira");
    const told: unknown[] = [];
    news.subscribe((one) => one.kind === "work" && told.push(one));
    let isFirst = true;
    const { load } = store;
    // a window saves between reading and writing
    store.load = async (key) => {
      const saved = await load(key);
      if (isFirst)
        await store.save("a-work", {
          plan: { ...SHARED_PLAN, title: "by a window" },
          history: null,
          revision: 2,
        });
      isFirst = false;
      return saved;
    };
    const send = (meter: string) =>
      shared.ask("/api/readings", {
        method: "POST",
        body: JSON.stringify({ meter, light: "all", fNumber: 8 }),
        cookie,
      });
    expect((await send("chin")).code).toBe(204);
    const { plan, revision, by, saved } = await keptPlan(shared);
    expect(plan).toMatchObject({ title: "by a window", readings: [{ light: "all", fNumber: 8 }] });
    expect(revision).toBe(3);
    expect(told.at(-1)).toEqual({ kind: "work", key: "a-work", revision: 3, by });
    expect(saved?.history).toMatchObject({ steps: [{ label: "opened" }, { label: "reading from Mira" }] });
    const refused = await send("nose");
    expect([refused.code, JSON.parse(refused.body).problem]).toEqual([
      422,
      'the plan has no meter called "nose"',
    ]);
  });
  it("[SR25] asks for the sheet", async () => {
    const asked: unknown[] = [];
    shared = await share({
      sheets: {
        ask: async (job) => {
          asked.push(job.want === "sheet" && job.options);
          return { sheet: new Uint8Array([37, 80, 68, 70]) };
        },
        stop: async () => {},
      },
    });
    const cookie = await shared.pair("phone");
    const answer = await shared.ask("/api/sheet?paper=letter&units=feet", { cookie });
    expect([answer.code, answer.body, answer.headers["content-type"]]).toEqual([
      200,
      "%PDF",
      "application/pdf",
    ]);
    await shared.ask("/api/sheet?paper=../x&units=miles", { cookie });
    expect(asked).toEqual([
      { paper: "letter", units: "feet" },
      { paper: "a4", units: "metric" },
    ]);
  });
  it("[SR26] with nothing on the table: said to the page, refused to who writes", async () => {
    shared = await share({ hand: () => null });
    const cookie = await shared.pair("phone");
    const page = await shared.look(cookie);
    expect(await page.until(() => true)).toEqual({ kind: "nothing" });
    for (const [path, method, sent] of [
      ["/api/placed", "PUT", { thing: "lights/key", isPlaced: true }],
      ["/api/readings", "POST", { meter: "chin", light: "all", fNumber: 8 }],
      ["/api/sheet", "GET", undefined],
    ] as const) {
      const { body } = await shared.ask(path, { method, body: JSON.stringify(sent), cookie });
      expect(JSON.parse(body)).toEqual({
        problem: "there is no plan on the table",
        cure: "open one in the workbench",
      });
    }
  });
});

it("[SR30] the workbench's routes: state, switch, code, list and picture", async () => {
  shared = await share();
  const app = new Hono();
  addShareRoutes(app, shared.sharing);
  const ask = (path: string, method = "GET", body?: string) =>
    app.request(path, { method, ...(body === undefined ? {} : { body }) });
  const stateOf = async (answer: Response | Promise<Response>) => (await (await answer).json()) as ShareState;
  const state = await stateOf(ask("/api/share"));
  expect(state).toEqual(await shared.sharing.state());
  const picture = await ask(`/api/share/qr?address=${encodeURIComponent(state.addresses[0])}`);
  expect(picture.headers.get("content-type")).toBe("image/svg+xml");
  expect(await picture.text()).toMatch(/^<svg [\s\S]*<\/svg>\s*$/);
  expect((await ask("/api/share/qr?address=https://elsewhere.example/")).status).toBe(404);
  const next = await stateOf(ask("/api/share/code", "POST"));
  expect(next.code?.digits).toMatch(/^\d{6}$/);
  await shared.pair("phone");
  const [{ id }] = (await stateOf(ask("/api/share"))).devices;
  expect((await stateOf(ask(`/api/share/devices/${id}`, "DELETE"))).devices).toEqual([]);
  expect((await ask("/api/share", "PUT", "{}")).status).toBe(400);
  expect(await stateOf(ask("/api/share", "PUT", '{"on":false}'))).toMatchObject({ isOn: false });
});
