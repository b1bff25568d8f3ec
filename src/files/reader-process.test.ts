import { afterEach, describe, expect, it } from "vitest";
import { startReader } from "./index.ts";
import type { PhotoReader } from "./reader.ts";

const HARD = new URL("./testing/hard-reader.mjs", import.meta.url);
let reader: PhotoReader;
afterEach(() => reader.stop());
const read = (name: string) => reader.read({ name, bytes: new Uint8Array() }, { bodies: {}, preview: false });

describe("[DK10] a photograph is read in a process of its own", () => {
  it("a crash, an endless one and a refusal are told; one process reads what comes after", async () => {
    reader = startReader(HARD, 1, 1500);
    const all = ["a", "crash", "b", "hang", "c", "refuse", "d"].map((name) =>
      read(name).then(
        ({ id }) => id,
        (error: Error) => error.message,
      ),
    );
    const [a, crash, b, hang, c, refuse, d] = await Promise.all(all);
    expect(crash).toMatch(/^reading crash broke off \(SIGSEGV\); save it anew/);
    expect(hang).toMatch(/^hang takes longer than 1\.5 s to read; save it anew/);
    expect(refuse).toBe("that is no photograph; take one");
    expect([a, b, c, d].map((id) => id.split(" ")[1])).toEqual(["1", "1", "1", "2"]);
    expect(new Set([a, b, c].map((id) => id.split(" ")[0])).size).toBe(3);
  });
  it("several share the work; who stops does not wait for a hanging one", async () => {
    reader = startReader(HARD, 2);
    const hanging = read("hang").catch((error: Error) => error.name);
    const ids = await Promise.all([read("a"), read("b")]);
    expect(ids.map(({ id }) => id.split(" ")[1])).toEqual(["1", "2"]);
    const began = performance.now();
    await reader.stop();
    expect(await hanging).toBe("Stopped");
    expect(performance.now() - began).toBeLessThan(500);
    await expect(read("c")).rejects.toThrow("stopped");
  });
  it("one that does not start is told with the cure", async () => {
    reader = startReader(new URL("./testing/nothing.mjs", import.meta.url), 1);
    await expect(read("a")).rejects.toThrow(/cannot be read here; run npm ci and npm run build/);
  });
});
