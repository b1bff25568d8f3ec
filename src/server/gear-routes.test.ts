import { Hono } from "hono";
import { describe, expect, it } from "vitest";
import { EMPTY_SHELF, STARTER_SHELF } from "../gear/index.ts";
import { EMPTY_BOOK, type GearBook, type KeptShelf } from "../workbench/index.ts";
import { addGearRoutes, addShelfRoutes } from "./gear-routes.ts";

function asking() {
  let kept: GearBook = EMPTY_BOOK;
  const app = new Hono();
  addGearRoutes(app, {
    load: async () => kept,
    save: async (book) => {
      kept = book;
      return book;
    },
  });
  const put = (body: string) => app.request("/api/gear", { method: "PUT", body });
  return { put, get: async () => (await app.request("/api/gear")).json(), kept: () => kept };
}

describe("[CA23] the gear book over HTTP", () => {
  it("is kept whole and read whole", async () => {
    const { get, put } = asking();
    expect(await get()).toEqual(EMPTY_BOOK);
    const book = { bodies: {}, lights: { key: { stops: 0.5, uncertaintyStops: 0.1, measuredOn: "" } } };
    expect((await put(JSON.stringify(book))).status).toBe(200);
    expect(await get()).toEqual(book);
  });
  it.each([
    "",
    "null",
    "7",
    "[]",
    '{"lights":{}}',
    '{"bodies":{},"lights":{"key":{"stops":"much"}}}',
    '{"format":"tapemark/plan","bodies":{},"lights":{}}',
  ])("%j is refused and changes nothing", async (body) => {
    const { kept, put } = asking();
    const answer = await put(body);
    expect(answer.status).toBe(400);
    expect(await answer.json()).toEqual({ problem: "that is no gear book", cure: "reload the page" });
    expect(kept()).toBe(EMPTY_BOOK);
  });
});

function shelfAsked() {
  let kept: KeptShelf = { shelf: STARTER_SHELF, isStarter: true, revision: 0 };
  const app = new Hono();
  addShelfRoutes(app, {
    load: async () => kept,
    save: async (shelf, revision) => {
      kept = { shelf, isStarter: false, revision: (revision ?? 0) + 1 };
      return kept;
    },
  });
  const put = (body: string) => app.request("/api/shelf", { method: "PUT", body });
  return { put, get: async () => (await app.request("/api/shelf")).json(), kept: () => kept };
}

describe("[SV38] the gear shelf over HTTP", () => {
  it("is read whole and kept whole, with the state it was read from", async () => {
    const { get, put } = shelfAsked();
    expect(await get()).toEqual({ shelf: STARTER_SHELF, isStarter: true, revision: 0 });
    const answer = await put(JSON.stringify({ shelf: EMPTY_SHELF, revision: 4 }));
    expect([answer.status, await answer.json()]).toEqual([
      200,
      { shelf: EMPTY_SHELF, isStarter: false, revision: 5 },
    ]);
    expect(await get()).toMatchObject({ revision: 5 });
  });
});

describe("[SV39] what is no gear shelf is refused with its place and the cure, and changes nothing", () => {
  it.each([
    ["", /^that is no gear shelf: shelf: must be a group/],
    ["null", /^that is no gear shelf: shelf: must be/],
    ["7", /^that is no gear shelf: shelf: must be/],
    ['{"shelf":[]}', /^that is no gear shelf: shelf: must be/],
    [
      '{"shelf":{"format":"tapemark/gear","version":1}}',
      /: format: must be "tapemark\/shelf"; it is "tapemark\/gear"$/,
    ],
    [
      '{"shelf":{"format":"tapemark/shelf","version":1,"others":[{"name":"bag","mass":900}]}}',
      /: others\[0\]\.mass: .*; it is 900$/,
    ],
  ])("%j", async (body, told) => {
    const { kept, put } = shelfAsked();
    const answer = await put(body);
    expect(answer.status).toBe(400);
    expect(await answer.json()).toEqual({
      problem: expect.stringMatching(told),
      cure: "correct it, or reload the page",
    });
    expect(kept().isStarter).toBe(true);
  });
});
