import { Hono } from "hono";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { readingOf } from "../files/testing/plain-reader.ts";
import { createFrameShelf } from "../library/index.ts";
import { smallLibrary } from "../library/testing/small-library.ts";
import type { FrameRows, PlanVersion, Shoot, ShootRows, ShootWhole } from "../shoots/index.ts";
import { SaveConflict, WorkError } from "../workbench/index.ts";
import { addShootRoutes } from "./shoot-routes.ts";
import { SHARED_PLAN } from "./testing/shared.ts";

const small = smallLibrary();
const app = new Hono();
let frame: string;

beforeAll(async () => {
  const shelf = createFrameShelf(small.library, small.parts);
  addShootRoutes(app, { shoots: small.shoots, thumbnail: (id) => shelf.thumbnail(id) });
  app.onError((error, c) => {
    if (!(error instanceof WorkError)) throw error;
    const { problem, cure } = error;
    return c.json({ problem, cure }, error instanceof SaveConflict ? 409 : 422);
  });
  await small.save("cellist", { ...SHARED_PLAN, title: "Cellist", room: { width: 7, depth: 9, height: 3 } });
  small.hand.set("cellist");
  const photo = {
    id: "f1",
    reading: readingOf("1.jpg", null),
    preview: null,
    thumbnail: new Uint8Array([255, 216]),
  };
  frame = shelf.put(photo, { path: "/card/1.jpg", bytes: 1, before: [] }).id;
});
afterAll(() => small.end());

async function ask<T>(method: string, path: string, body?: unknown): Promise<{ status: number; said: T }> {
  const init = body === undefined ? { method } : { method, body: JSON.stringify(body) };
  const answer = await app.request(`/api${path}`, init);
  const text = await answer.text();
  return { status: answer.status, said: (text === "" ? null : JSON.parse(text)) as T };
}
const said = async <T>(method: string, path: string, body?: unknown) =>
  (await ask<T>(method, path, body)).said;
const NOT_THAT = expect.objectContaining({ problem: expect.any(String), cure: expect.any(String) });

describe("[SV20] shoots over HTTP", () => {
  it("are made, found, changed and read; a stale change is a conflict", async () => {
    const made = await said<Shoot>("POST", "/shoots", { title: "Board of the dairy", date: "2026-12-01" });
    const narrow = new URLSearchParams({ text: "dair", from: "2026-12-01", putAway: "false", limit: "5" });
    expect((await said<ShootRows>("GET", `/shoots?${narrow}`)).rows.map(({ id }) => id)).toEqual([made.id]);
    const all = await said<ShootRows>("GET", "/shoots");
    expect(all.rows.map(({ title }) => title)).toEqual(["Board of the dairy", "Cellist"]);
    expect(await said("GET", "/shoots?room=7.00 × 9.00 m&light=key&stars=0")).toMatchObject({ total: 1 });
    expect(await said("GET", "/shoots/choices")).toEqual({
      patterns: [],
      lights: ["key"],
      rooms: ["7.00 × 9.00 m"],
    });
    const change = { revision: 1, fields: { client: "Dairy" } };
    expect(await said("PATCH", `/shoots/${made.id}`, change)).toMatchObject({ client: "Dairy", revision: 2 });
    expect(await ask("PATCH", `/shoots/${made.id}`, change)).toMatchObject({ status: 409, said: NOT_THAT });
    expect((await said<ShootWhole>("GET", `/shoots/${made.id}`)).shoot).toMatchObject({ client: "Dairy" });
  });
  it("works lie in them, with versions, with what was read and what is placed", async () => {
    const { shoot } = await said<{ shoot: string }>("GET", "/work/cellist/shoot");
    const version = await said<PlanVersion>("POST", "/work/cellist/versions", { name: "as planned" });
    expect(await said("PATCH", `/versions/${version.id}`, { name: "first" })).toMatchObject({
      name: "first",
    });
    expect(await said("GET", `/versions/${version.id}`)).toMatchObject({ title: "Cellist" });
    expect((await ask("PUT", "/work/cellist/read", { pattern: "rembrandt" })).status).toBe(204);
    expect((await said<ShootRows>("GET", "/shoots?pattern=Rembrandt")).rows.map(({ id }) => id)).toEqual([
      shoot,
    ]);
    expect((await ask("PUT", "/work/cellist/placed", { thing: "lights/key", isPlaced: true })).status).toBe(
      204,
    );
    expect(await said("GET", "/work/cellist/placed")).toMatchObject([
      { thing: "lights/key", by: "workbench" },
    ]);
    const other = await said<Shoot>("POST", "/shoots", { title: "Season" });
    expect((await ask("PUT", "/work/cellist/shoot", { shoot: other.id })).status).toBe(204);
    expect(await said("GET", "/work/cellist/shoot")).toEqual({ shoot: other.id });
    expect(await said("GET", "/work/none/shoot")).toEqual({ shoot: null });
  });
  it("frames are listed, picked and seen; sidecars are written for those whose place is known", async () => {
    const { shoot } = await said<{ shoot: string }>("GET", "/work/cellist/shoot");
    expect(await said("PATCH", `/frames/${frame}`, { stars: 4, isSelect: true })).toMatchObject({ stars: 4 });
    const { total, rows } = await said<FrameRows>("GET", `/shoots/${shoot}/frames?limit=1`);
    expect([total, rows[0].id, rows[0].isSelect]).toEqual([1, frame, true]);
    expect(await said("GET", `/frames/${frame}`)).toEqual(rows[0]);
    expect(await said("GET", "/frames/none")).toBeNull();
    const picture = await app.request(`/api/frames/${frame}/thumbnail`);
    expect([picture.status, picture.headers.get("content-type")]).toEqual([200, "image/jpeg"]);
    expect((await app.request("/api/frames/none/thumbnail")).status).toBe(404);
    expect(await said("POST", `/shoots/${shoot}/sidecars`)).toEqual({
      written: 1,
      unchanged: 0,
      problems: [],
    });
    expect(small.sidecars).toEqual([[{ path: "/card/1.jpg", stars: 4, isSelect: true }]]);
  });
});

describe("[SV21] what is not as it should be is refused in words and changes nothing", () => {
  it.each([
    ["POST", "/shoots", { title: 7 }],
    ["POST", "/shoots", [1]],
    ["POST", "/shoots", null],
    ["PATCH", "/shoots/x", { fields: {} }],
    ["PATCH", "/shoots/x", { revision: 1, fields: { title: "y" } }],
    ["GET", "/shoots/x", undefined],
    ["GET", "/shoots?limit=-1", undefined],
    ["GET", "/shoots?offset=1e99", undefined],
    ["GET", "/shoots?stars=many", undefined],
    ["GET", "/shoots/x/frames", undefined],
    ["PUT", "/work/cellist/shoot", { shoot: "nowhere" }],
    ["PUT", "/work/cellist/shoot", {}],
    ["POST", "/work/none/versions", { name: "" }],
    ["PATCH", "/versions/x", { name: "" }],
    ["GET", "/versions/..%2f..", undefined],
    ["PUT", "/work/cellist/read", { pattern: { a: 1 } }],
    ["PUT", "/work/cellist/placed", { thing: "lights/none", isPlaced: true }],
    ["PUT", "/work/cellist/placed", { thing: "camera", isPlaced: "yes" }],
    ["PATCH", "/frames/f1", { stars: 6 }],
    ["PATCH", "/frames/f1", { stars: "5" }],
    ["PATCH", "/frames/f1", { isSelect: 1 }],
    ["PATCH", "/frames/none", { stars: 1 }],
  ])("%s %s %j", async (method, path, body) => {
    const before = await said("GET", "/shoots");
    expect(await ask(method, path, body)).toEqual({ status: 422, said: NOT_THAT });
    expect(await said("GET", "/shoots")).toEqual(before);
  });
});
