/** What is sent to pages that look: how it is drawn, paced and given up. */
import { afterEach, describe, expect, it, vi } from "vitest";
import { checkPlan } from "../plan/index.ts";
import { createMemoryStore, livePlan } from "../workbench/index.ts";
import { LiveDesk } from "./live-desk.ts";
import { LiveMeters, type LiveMetersParts, type LiveWork } from "./live-meters.ts";
import { eventOf, LiveStream } from "./live-stream.ts";
import { sentReadingOf } from "./live-write.ts";
import { createNewsDesk } from "./news.ts";
import { SHARED_PLAN } from "./testing/shared.ts";

afterEach(() => vi.useRealTimers());

function page() {
  const time = { elapsed_ms: 0 };
  const left: LiveStream[] = [];
  let cuts = 0;
  const stream = new LiveStream({
    elapsed_ms: () => time.elapsed_ms,
    onLeft: (which) => left.push(which),
    cut: () => cuts++,
  });
  const reader = stream.body.getReader();
  const take = async () => {
    const { done, value } = await reader.read();
    return done ? null : new TextDecoder().decode(value).replace(/^data: |\n\n$/g, "");
  };
  return { stream, reader, take, time, left, cuts: () => cuts };
}

describe("[SR21] a page takes what it can", () => {
  it("a slow one gets the newest only", async () => {
    const { stream, take } = page();
    // whatever a stream fetches ahead by itself it has fetched
    await new Promise((resolve) => setImmediate(resolve));
    for (let i = 1; i <= 1000; i++) {
      stream.send(eventOf(i));
      expect(stream.waiting).toBe(1);
    }
    expect(await take()).toBe("1000");
    expect(stream.waiting).toBe(0);
    const next = take();
    stream.send(eventOf("at once"));
    expect(await next).toBe('"at once"');
  });
  it("the last words come after what is under way, and nothing after them", async () => {
    const { stream, take, left } = page();
    stream.send(eventOf(1));
    stream.end("because");
    stream.send(eventOf(2));
    expect(JSON.parse((await take()) ?? "")).toEqual({ kind: "ended", why: "because" });
    expect(await take()).toBeNull();
    expect(left).toEqual([stream]);
  });
  it("one that takes nothing for half a minute is cut off; one with nothing to take is not", () => {
    const { stream, time, left, cuts } = page();
    stream.send(eventOf(1));
    time.elapsed_ms = 29_000;
    stream.beat();
    expect(left).toEqual([]);
    time.elapsed_ms = 31_000;
    stream.beat();
    expect([left.length, cuts()]).toEqual([1, 1]);
  });
  it("one that was told to go and does not is cut off within a second", () => {
    vi.useFakeTimers();
    const { stream, cuts } = page();
    stream.end("because");
    vi.advanceTimersByTime(1000);
    expect(cuts()).toBe(1);
  });
  it("one that goes by itself is known to be gone", async () => {
    const { stream, reader, left } = page();
    await reader.cancel();
    expect(left).toEqual([stream]);
    stream.send(eventOf(1));
    stream.end("because");
    expect(left).toHaveLength(1);
  });
});

async function desk() {
  const store = createMemoryStore();
  await store.save("a", { plan: SHARED_PLAN, history: null, revision: 1 });
  const news = createNewsDesk();
  const counts = { loads: 0, drawings: 0, wants: 0, rests: 0 };
  let hand: string | null = "a";
  const lines: string[] = [];
  const made = new LiveDesk({
    store: {
      load: async (key) => {
        counts.loads++;
        return store.load(key);
      },
    },
    library: { placed: async () => [] },
    news,
    hand: () => hand,
    draw: (plan, around) => {
      counts.drawings++;
      return livePlan(plan, around);
    },
    meters: { want: () => counts.wants++, rest: () => counts.rests++ },
    elapsed_ms: () => 0,
    tellFault: (what, error) => lines.push(`${what}: ${error}`),
  });
  const take = (key: string | null) => {
    hand = key;
    news.tell({ kind: "hand", key });
  };
  const save = async (revision: number, title: string) => {
    await store.save("a", { plan: { ...SHARED_PLAN, title }, history: null, revision });
    news.tell({ kind: "work", key: "a", revision, by: null });
  };
  return { made, counts, lines, save, take, news };
}

const parsed = async (text: Promise<string | null>) => JSON.parse((await text) ?? "null");

describe("[SR20] the plan on the table", () => {
  it("is drawn once for all that look in the same units, again only for what changed", async () => {
    const { made, counts, save } = await desk();
    const pages = Array.from({ length: 5 }, page);
    for (const { stream } of pages) made.add(stream, "metric");
    for (const { take } of pages)
      expect(await parsed(take())).toMatchObject({ kind: "plan", plan: { revision: 1, units: "metric" } });
    expect(counts.drawings).toBe(1);
    const late = page();
    made.add(late.stream, "feet");
    expect(await parsed(late.take())).toMatchObject({ plan: { revision: 1, units: "feet" } });
    expect(counts).toMatchObject({ drawings: 2, loads: 1 });
    // a drag: ten saves between two looks
    for (let revision = 2; revision <= 11; revision++) await save(revision, `title ${revision}`);
    for (const { take } of pages)
      expect(await parsed(take())).toMatchObject({ plan: { revision: 11, title: "title 11" } });
    expect(counts.loads).toBeLessThanOrEqual(3);
    for (const { stream } of [...pages, late]) made.remove(stream);
  });
  it("nothing is read while nobody looks", async () => {
    const { made, counts, save } = await desk();
    const { stream, take } = page();
    made.add(stream, "metric");
    await take();
    made.remove(stream);
    const { loads } = counts;
    await save(2, "later");
    expect(counts).toMatchObject({ loads, rests: 1 });
  });
  it("[SR26] none on the table, none kept and one that is damaged are said", async () => {
    const { made, take, save } = await desk();
    const { stream, take: next } = page();
    made.add(stream, "metric");
    expect(await parsed(next())).toMatchObject({ kind: "plan" });
    for (const key of [null, "unsaved"]) {
      take(key);
      expect(await parsed(next())).toEqual({ kind: "nothing" });
    }
    take("a");
    expect(await parsed(next())).toMatchObject({ kind: "plan" });
    await save(2, { no: "title" } as unknown as string);
    expect(await parsed(next())).toEqual({ kind: "nothing" });
    made.remove(stream);
  });
});

function meters(still_ms = 0) {
  const asked: number[] = [];
  const read: number[] = [];
  const reached: number[] = [];
  const lines: string[] = [];
  const answers: { resolve: () => void; reject: () => void }[] = [];
  const process: LiveMetersParts["process"] = {
    ask: (job) =>
      new Promise((resolve, reject) => {
        if (job.want === "reach") return resolve({ reach: [] });
        asked.push(job.want === "meters" ? Number(job.plan.title) : -1);
        answers.push({
          resolve: () => resolve({ meters: [] }),
          reject: () => reject(new Error("it broke off")),
        });
      }),
    stop: async () => {},
  };
  const made = new LiveMeters({
    process,
    onRead: ({ revision, reach }) => (reach === null ? read : reached).push(revision),
    tellFault: (what, error) => lines.push(`${what}: ${error}`),
    still_ms,
  });
  const want = (revision: number) => made.want(work(revision));
  return { made, asked, read, reached, lines, answers, want };
}

function work(revision: number): LiveWork {
  const checked = checkPlan({ ...SHARED_PLAN, title: String(revision) });
  if (!checked.ok) throw new Error("not a plan");
  return { key: "a", revision, plan: checked.plan };
}

describe("[SR22] what the meters should read", () => {
  it("waits until the plan is still", () => {
    vi.useFakeTimers();
    const { asked, want } = meters(700);
    for (let revision = 1; revision <= 5; revision++) {
      want(revision);
      vi.advanceTimersByTime(600);
    }
    expect(asked).toEqual([]);
    vi.advanceTimersByTime(100);
    expect(asked).toEqual([5]);
  });
  it("one at a time, the newest next", async () => {
    vi.useFakeTimers();
    const { asked, read, reached, answers, want } = meters();
    want(1);
    await vi.advanceTimersByTimeAsync(1);
    for (const revision of [2, 3, 4]) {
      want(revision);
      await vi.advanceTimersByTimeAsync(1);
    }
    expect(asked).toEqual([1]);
    answers[0].resolve();
    await vi.advanceTimersByTimeAsync(1);
    expect(asked).toEqual([1, 4]);
    answers[1].resolve();
    await vi.advanceTimersByTimeAsync(1);
    expect(read).toEqual([1, 4]);
    // what distances do comes after the readings, and not of a plan that is another one by then
    expect(reached).toEqual([4]);
  });
  it("one that breaks off is asked once more, then the plan is left until it changes", async () => {
    vi.useFakeTimers();
    const { asked, lines, answers, want } = meters();
    want(1);
    await vi.advanceTimersByTimeAsync(1);
    answers[0].reject();
    await vi.advanceTimersByTimeAsync(1);
    answers[1].reject();
    await vi.advanceTimersByTimeAsync(1000);
    expect(asked).toEqual([1, 1]);
    expect(lines).toEqual(["reading the meters for paired devices: Error: it broke off"]);
    want(2);
    await vi.advanceTimersByTimeAsync(1);
    expect(asked).toEqual([1, 1, 2]);
  });
  it("is not begun when nobody looks any more", () => {
    vi.useFakeTimers();
    const { made, asked, want } = meters(700);
    want(1);
    made.rest();
    vi.advanceTimersByTime(5000);
    expect(asked).toEqual([]);
  });
});

it.each([
  [null, null],
  [{ meter: "chin", light: "all" }, null],
  [{ meter: "chin", light: "all", fNumber: "8" }, null],
  [{ meter: "x".repeat(201), light: "all", fNumber: 8 }, null],
  [{ meter: "chin", light: "all", fNumber: 8, iso: "100" }, null],
  [
    { meter: "chin", light: "all", fNumber: 8, note: "two\r\nlines", more: 1 },
    { meter: "chin", light: "all", fNumber: 8, note: "two  lines" },
  ],
])("[SR24] %j is taken as %j", (sent, taken) => expect(sentReadingOf(sent)).toEqual(taken));
