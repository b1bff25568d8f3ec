import fs from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { EMPTY_BOOK, type GearBook } from "../workbench/index.ts";
import { createGearFile } from "./index.ts";

const LIGHT = { stops: 0.6, uncertaintyStops: 0.1, measuredOn: "2026-11-26", exponent: 1 };
const BOOK: GearBook = { bodies: {}, lights: { "key | point | 400 Ws": LIGHT } };
const newFolder = () => fs.mkdtempSync(join(tmpdir(), "tapemark-gear-"));
const storeIn = (folder: string) => createGearFile(folder, () => new Date(0));

describe("[CA22] the gear book in the data folder", () => {
  it("none is an empty one; what is kept is there again, and nothing else stays", async () => {
    const folder = join(newFolder(), "not there yet");
    expect(await storeIn(folder).load()).toEqual(EMPTY_BOOK);
    await storeIn(folder).save(EMPTY_BOOK);
    await storeIn(folder).save(BOOK);
    expect(await storeIn(folder).load()).toEqual(BOOK);
    expect(fs.readdirSync(folder)).toEqual(["gear.json"]);
  });
  it("one that is damaged is set aside and said, and nothing of it is lost", async () => {
    const folder = newFolder();
    await storeIn(folder).save(BOOK);
    const whole = fs.readFileSync(join(folder, "gear.json"), "utf8");
    fs.writeFileSync(join(folder, "gear.json"), whole.slice(0, 60));
    const loaded = await storeIn(folder).load();
    expect(loaded).toMatchObject(EMPTY_BOOK);
    expect(loaded.notice).toContain("could not be read: it was set aside as");
    expect(fs.readdirSync(folder)).toEqual(["gear damaged 1970-01-01T00-00-00.000Z.json"]);
    expect(fs.readFileSync(join(folder, fs.readdirSync(folder)[0]), "utf8")).toBe(whole.slice(0, 60));
    expect(await storeIn(folder).load()).toEqual(EMPTY_BOOK);
  });
  it("a save that cannot be made leaves the old book and says why", async () => {
    const folder = newFolder();
    await storeIn(folder).save(BOOK);
    // a folder of the temporary file's name is in its way
    fs.mkdirSync(join(folder, `.gear-${process.pid}.tmp`, "in the way"), { recursive: true });
    await expect(storeIn(folder).save(EMPTY_BOOK)).rejects.toThrow(/could not keep the gear in .*gear\.json/);
    expect(await storeIn(folder).load()).toEqual(BOOK);
  });
});
