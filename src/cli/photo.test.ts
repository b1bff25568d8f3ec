/** Photographs from a shell, through the built command. */
import { spawnSync } from "node:child_process";
import fs from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import sharp from "sharp";
import { afterAll, beforeAll, describe, expect, it } from "vitest";

const folder = fs.mkdtempSync(join(tmpdir(), "tapemark-photo-"));
const at = (name: string) => join(folder, name);
const isLong = process.env.TAPEMARK_LONG === "1";
const EXAMPLE = "examples/test-frame.jpg";

function photo(...words: string[]) {
  const env = { ...process.env, TAPEMARK_DATA: at("data") };
  const done = spawnSync(process.execPath, ["bin/tapemark.js", "photo", ...words], { encoding: "utf8", env });
  return { code: done.status, out: done.stdout, error: done.stderr };
}

beforeAll(async () => {
  const create = { width: 300, height: 200, channels: 3 as const, background: "#888" };
  await sharp({ create }).png().toFile(at("wall.png"));
  fs.writeFileSync(at("letter.jpg"), "Dear cellist,");
  fs.writeFileSync(at("half.jpg"), fs.readFileSync(EXAMPLE).subarray(0, 9000));
});
afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));

/** What was told of the example: it must be told again by every other call, each a process of its own. */
let told: { readonly faces: unknown };

describe("[CL20] photo --json: one object a line for each photograph, in the order named", () => {
  it("faces with their light; a picture without a face has none", () => {
    const { code, out, error } = photo("--json", EXAMPLE, at("wall.png"));
    expect(error).toBe("");
    expect(code).toBe(0);
    const [frame, wall] = out
      .trimEnd()
      .split("\n")
      .map((line) => JSON.parse(line));
    for (const each of [frame, wall]) expect(Object.keys(each)).toEqual(["image", "faces", "warnings"]);
    expect(wall.faces).toEqual([]);
    expect(wall.image).toMatchObject({ name: at("wall.png"), kind: "png", width: 300, height: 200 });
    expect(frame.image).toMatchObject({
      name: EXAMPLE,
      width: 640,
      height: 960,
      clipped: { red: 0, any: 0 },
      exif: { fNumber: 8, iso: 100, takenAt: "2026-11-26T10:12:30" },
    });
    expect(frame.faces).toHaveLength(1);
    const [face] = frame.faces;
    expect(Object.keys(face)).toEqual(
      expect.arrayContaining([
        ...["box", "confidence", "light", "lightFromCamera", "uncertaintyDegrees", "litSide", "ratioStops"],
        ...["pattern", "catchlights", "clippedSkin"],
      ]),
    );
    // the plan that it was rendered from has the key to the sitter's left and above
    expect(face.litSide).toBe("left");
    expect(face.lightFromCamera.azimuth).toBeGreaterThan(0);
    expect(face.light.elevation).toBeGreaterThan(0);
    told = frame;
  });
});

describe("[CL21] one that cannot be read is told, the others are read, and it ends with 3", () => {
  it("in words too", () => {
    const bad = [at("letter.jpg"), at("half.jpg"), at("nowhere.jpg"), folder];
    const { code, out, error } = photo(bad[0], EXAMPLE, ...bad.slice(1));
    expect(code).toBe(3);
    const lines = error.trimEnd().split("\n");
    expect(lines).toHaveLength(bad.length);
    lines.forEach((line, i) => {
      expect(line).toMatch(/^tapemark: .*; \S/);
      expect(line).toContain(bad[i]);
    });
    expect(out).toMatch(/^examples\/test-frame\.jpg: 640 × 960, 135 mm, f\/8 \+ 0\.0, 1\/160, ISO 100\n/);
    expect(out).toMatch(/own left lit/);
    expect(out).toMatch(/light from \d+° to own left, \d+° up, ± \d+°/);
    expect(out).not.toMatch(/undefined|null|NaN/);
  });
});

describe("[CL23] photo --plan puts each face beside the person of the plan that it is", () => {
  it("in data, with what else is told of it; a wrong plan ends with 1", () => {
    const { code, out, error } = photo("--json", "--plan", "examples/cellist.json", EXAMPLE);
    expect([code, error]).toEqual([0, ""]);
    const { faces, compared } = JSON.parse(out);
    expect(faces).toEqual(told.faces);
    expect(compared).toMatchObject([{ person: "cellist", face: 0, summary: expect.any(String) }]);
    const side = compared[0].lines.find(({ what }: { what: string }) => what === "side");
    expect(side).toMatchObject({ planned: "own left lit", seen: "own left lit", state: "as planned" });
    fs.writeFileSync(at("wrong.json"), "{}");
    const wrong = photo("--plan", at("wrong.json"), EXAMPLE);
    expect([wrong.code, wrong.out]).toEqual([1, ""]);
  });
});

describe("[CL24] photo --bracket learns a camera's curve from a grey card", () => {
  /** A camera that draws an S: level for so many stops from middle grey, which it puts at 118. */
  const level = (stops: number) => {
    const plain = 0.1812 * 2 ** stops;
    const v = Math.min(1, 1.055 * Math.min(1, plain) ** (1 / 2.4) - 0.055);
    return Math.round(255 * Math.max(0, v - (0.3 / (2 * Math.PI)) * Math.sin(2 * Math.PI * v)));
  };
  const card = async (name: string, stops: number, model = "S curve") => {
    const grey = level(stops);
    const create = { width: 90, height: 60, channels: 3 as const, background: { r: grey, g: grey, b: grey } };
    const IFD0 = { Make: "Tapemark", Model: model };
    const IFD2 = {
      FNumber: "8/1",
      ExposureTime: `${Math.round(1e6 * 2 ** (stops - 7))}/1000000`,
      ISOSpeedRatings: "100",
    };
    await sharp({ create }).withExif({ IFD0, IFD2 }).jpeg({ quality: 100 }).toFile(at(name));
    return at(name);
  };
  it("and keeps it; that camera's photographs are read by it", async () => {
    const frames = [];
    for (let stops = -3; stops <= 3; stops += 0.5) frames.push(await card(`card ${stops}.jpg`, stops));
    const learnt = photo("--bracket", "--json", ...frames);
    expect([learnt.code, learnt.error]).toEqual([0, ""]);
    const { body, curve, leftOut } = JSON.parse(learnt.out);
    expect([body, leftOut]).toEqual(["Tapemark S curve", []]);
    // it clips where plain light does; as the fit is held to with half steps
    expect(Math.abs(curve.clippingStops - Math.log2(1 / 0.1812))).toBeLessThan(0.1);
    const [read] = photo("--json", frames[0]).out.trim().split("\n");
    expect(JSON.parse(read).image.response).toMatchObject({ body, rmsStops: expect.any(Number) });
  });
  const refused: [string, string[], RegExp][] = [
    ["of two cameras", ["a", "b"], /come from several cameras; take a bracket for each/],
    ["too short", ["a", "a"], /frames tell of the curve, 5 are needed; take a bracket from 3 stops under/],
  ];
  // each is a process of its own
  it.each(isLong ? refused : refused.slice(0, 1))("one %s: 3 with the cure", async (_, models, message) => {
    const frames = [];
    for (const [i, model] of models.entries()) frames.push(await card(`${model} ${i}.jpg`, i, model));
    const { code, out, error } = photo("--bracket", ...frames);
    expect([code, out]).toEqual([3, ""]);
    expect(error).toMatch(message);
  });
  it("a picture that does not say how it was exposed: 3 with the cure", () => {
    const { code, error } = photo("--bracket", at("wall.png"));
    expect(code).toBe(3);
    expect(error).toMatch(
      /wall\.png does not say at which time, aperture and ISO .*; use files as the camera/,
    );
  });
});

describe("[CL22] a wrong call of photo: 2 with the cure", () => {
  it.each([
    [[], /name a photograph/],
    [["--jsn", EXAMPLE], /did you mean --json/],
    [["--bracket", "--plan", "examples/cellist.json", EXAMPLE], /leave --plan away/],
  ])("%j", (words, message) => {
    const { code, out, error } = photo(...words);
    expect([code, out]).toEqual([2, ""]);
    expect(error).toMatch(message);
  });
});
