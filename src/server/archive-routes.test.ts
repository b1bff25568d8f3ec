import fs from "node:fs";
import { join } from "node:path";
import { Hono } from "hono";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { copyHere, type DailyCopies, type Library, openLibrary } from "../library/index.ts";
import { cellistShoot, fill } from "../library/testing/filled-library.ts";
import { newFolder, plainAround } from "../library/testing/fresh-library.ts";
import { type News, WorkError } from "../workbench/index.ts";
import { addArchiveRoutes } from "./archive-routes.ts";

const around = plainAround();
let folder: string;
let libraries: Library[] = [];

beforeEach(() => {
  folder = newFolder();
});
afterEach(() => {
  for (const library of libraries) library.close();
  libraries = [];
  fs.rmSync(folder, { recursive: true });
});

function serving(name: string, most?: number) {
  const library = openLibrary(join(folder, name, "library.tapemark"), around);
  libraries.push(library);
  const told: News[] = [];
  const copies: DailyCopies = {
    trouble: () => null,
    now: () => copyHere(library.path, around.now()),
    stop: () => {},
  };
  const app = new Hono();
  app.onError((error, c) =>
    error instanceof WorkError
      ? c.json({ problem: error.problem, cure: error.cure }, 422)
      : c.body(null, 500),
  );
  addArchiveRoutes(app, { ...around, library, copies, news: { tell: (news) => told.push(news) } }, most);
  const left = () => fs.readdirSync(join(folder, name, "photographs")).filter((one) => one.startsWith("."));
  return { app, library, told, left };
}

describe("[LB45] archives over HTTP", () => {
  it("one is taken away and brought to another, with nothing left on the way", async () => {
    const one = serving("one");
    fill(one.library, cellistShoot(), join(folder, "card"));
    const packing = await one.app.request("/api/shoots/cellist/archive", { method: "POST" });
    const lines = (await packing.text())
      .trim()
      .split("\n")
      .map((line) => JSON.parse(line));
    const { bytes, packed } = lines.at(-1) as { bytes: number; packed: string };
    expect(lines.length).toBeGreaterThan(1);
    for (const { done, what } of lines.slice(0, -1))
      expect([done > 0 && done <= 1, what]).toEqual([true, expect.any(String)]);
    expect((await one.app.request(`/api/archives/${packed}`, { method: "HEAD" })).status).toBe(200);
    const answer = await one.app.request(`/api/archives/${packed}`);
    expect(answer.headers.get("content-disposition")).toBe(
      "attachment; filename*=UTF-8''2026-11-26%20Cellist%20-%20season%20poster.zip",
    );
    const zip = await answer.arrayBuffer();
    expect(answer.headers.get("content-length")).toBe(String(zip.byteLength));
    expect(bytes).toBe(zip.byteLength);
    await expect.poll(async () => (await one.app.request(`/api/archives/${packed}`)).status).toBe(422);
    const two = serving("two");
    const taken = await two.app.request("/api/archives", { method: "POST", body: zip });
    expect(await taken.json()).toMatchObject({ shoots: ["cellist"], photographs: 2, how: [{ how: "new" }] });
    expect(two.told).toEqual([{ kind: "shoots", shoot: null }]);
    const again = await two.app.request("/api/archives", { method: "POST", body: zip });
    expect(await again.json()).toMatchObject({ shoots: ["cellist"], how: [{ how: "there" }] });
    expect(two.told).toHaveLength(1);
    expect([one.left(), two.left()]).toEqual([[], []]);
  });
  it("what is none, or too much, is refused in words that name no place of this machine", async () => {
    const { app, left } = serving("one", 100);
    for (const body of ["", "PK", "x".repeat(101)]) {
      const answer = await app.request("/api/archives", { method: "POST", body });
      expect(answer.status).toBe(422);
      expect(((await answer.json()) as { problem: string }).problem).not.toContain(folder);
    }
    expect((await app.request("/api/shoots/nobody/archive", { method: "POST" })).status).toBe(422);
    expect((await app.request("/api/archives/nothing")).status).toBe(422);
    expect(left()).toEqual([]);
  });
  it("whoever goes away while one is packed stops it, and nothing of it stays; what fails on the way is said in words", async () => {
    const { app, library, left } = serving("one");
    fill(library, cellistShoot(), join(folder, "card"));
    const pack = () => app.request("/api/shoots/cellist/archive", { method: "POST" });
    await (await pack()).body?.cancel();
    await expect.poll(left).toEqual([]);
    library.write((db) => db.exec("UPDATE works SET plan = '{torn'"));
    const lines = (await (await pack()).text()).trim().split("\n");
    expect(JSON.parse(lines.at(-1) ?? "")).toMatchObject({
      problem: expect.any(String),
      cure: expect.any(String),
    });
    expect(left()).toEqual([]);
  });
  it("the library's state, and a copy that is asked for", async () => {
    const { app, library } = serving("one");
    fill(library, cellistShoot(), join(folder, "card"));
    const state = async () => (await (await app.request("/api/library")).json()) as { lastCopy: unknown };
    expect(await state()).toMatchObject({
      path: library.path,
      shoots: 1,
      frames: 3,
      lastCopy: null,
      problem: null,
    });
    expect((await app.request("/api/library/copies", { method: "POST" })).status).toBe(200);
    expect((await state()).lastCopy).toMatchObject({ isVerified: true });
  });
});
