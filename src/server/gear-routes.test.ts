import { Hono } from "hono";
import { describe, expect, it } from "vitest";
import { EMPTY_BOOK, type GearBook } from "../workbench/index.ts";
import { addGearRoutes } from "./gear-routes.ts";

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
