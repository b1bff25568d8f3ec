import { Hono } from "hono";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { readingOf } from "../files/testing/plain-reader.ts";
import { createFrameShelf } from "../library/index.ts";
import { smallLibrary } from "../library/testing/small-library.ts";
import { WorkError } from "../workbench/index.ts";
import type { PrintJob } from "./print-process.ts";
import { addPrintRoutes } from "./print-routes.ts";

const small = smallLibrary();
const app = new Hono();
const jobs: { job: PrintJob; signal: AbortSignal }[] = [];
let shoot: string;
let held: Promise<void> | null = null;

beforeAll(async () => {
  addPrintRoutes(app, {
    library: small.library,
    print: async (job, signal, follow) => {
      jobs.push({ job, signal });
      follow?.({ done: 1 / 3, what: "3 of 9 frames finished" });
      await held;
      return new TextEncoder().encode("%PDF-");
    },
  });
  app.onError((error, c) => {
    if (!(error instanceof WorkError)) throw error;
    return c.json({ problem: error.problem, cure: error.cure }, 422);
  });
  await small.save("evening", { format: "tapemark/plan", version: 1, title: "Cellist" });
  small.hand.set("evening");
  const shelf = createFrameShelf(small.library, small.parts);
  shelf.put(
    { id: "f1", reading: readingOf("1.jpg", null), preview: null, thumbnail: null },
    { path: "/card/1.jpg", bytes: 1, before: [] },
  );
  shoot = (await small.shoots.shootOf("evening")) as string;
});
afterAll(() => small.end());

describe("[RC18] record and contact sheets over HTTP", () => {
  it("the record of a shoot, with what is on it from the library", async () => {
    const answer = await app.request(`/api/shoots/${shoot}/record?paper=letter&units=feet`);
    expect([answer.status, answer.headers.get("content-type")]).toEqual([200, "application/pdf"]);
    expect(jobs.at(-1)?.job).toMatchObject({
      want: "record",
      options: { paper: "letter", units: "feet" },
      record: { plan: { title: "Cellist" }, photos: [{ name: "1.jpg" }] },
    });
    const frames = await app.request(`/api/shoots/${shoot}/record/frames?key=evening`);
    expect(await frames.json()).toMatchObject([{ id: "f1", name: "1.jpg" }]);
  });
  it("a contact sheet of the plan that is sent", async () => {
    const ask = (query: string) => app.request(`/api/contact?${query}`, { method: "POST", body: "the plan" });
    expect((await ask("form=png&person=2")).headers.get("content-type")).toBe("image/png");
    expect(jobs.at(-1)?.job).toEqual({
      want: "contact",
      text: "the plan",
      options: { form: "png", person: 2, paper: "a4", units: "metric" },
    });
    await ask("form=exe&paper=wall");
    expect(jobs.at(-1)?.job).toMatchObject({ options: { form: "pdf", paper: "a4", person: 0 } });
    const wrong = await ask("person=-1");
    expect([wrong.status, await wrong.json()]).toEqual([
      422,
      expect.objectContaining({ cure: expect.any(String) }),
    ]);
  });
  it("[RC20] says how far it is as long as it is being made, under the name that was given", async () => {
    const far = async () => (await app.request("/api/prints/mine-1")).json();
    let finish = () => {};
    held = new Promise((resolve) => {
      finish = resolve;
    });
    const sheet = app.request("/api/contact?as=mine-1", { method: "POST", body: "the plan" });
    await expect.poll(far).toEqual({ done: 1 / 3, what: "3 of 9 frames finished" });
    finish();
    held = null;
    expect((await sheet).status).toBe(200);
    expect(await far()).toBeNull();
    const wrong = await app.request("/api/contact?as=a%20b", { method: "POST", body: "the plan" });
    expect(await wrong.json()).toMatchObject({ problem: expect.stringContaining('"a b" is no name') });
  });
  it("whoever goes away stops it", async () => {
    const away = new AbortController();
    await app.request(new Request(`http://here/api/shoots/${shoot}/record`, { signal: away.signal }));
    expect(jobs.at(-1)?.signal.aborted).toBe(false);
    away.abort();
    expect(jobs.at(-1)?.signal.aborted).toBe(true);
  });
  it("what is not there is refused with the cure, and nothing is made", async () => {
    const before = jobs.length;
    for (const path of ["nowhere/record", `${shoot}/record?key=elsewhere`, "nowhere/record/frames"])
      expect((await app.request(`/api/shoots/${path}`)).status, path).toBe(422);
    expect(jobs).toHaveLength(before);
  });
});
