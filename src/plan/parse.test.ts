import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parsePlan } from "./index.ts";
import { breaking, HEAD, told } from "./testing/told.ts";

const demoText = readFileSync("examples/cellist.json", "utf8");
const broken = breaking(demoText);

describe("[PL1] what is left out is filled in", () => {
  it("format and version are enough", () => {
    const result = parsePlan(`{ ${HEAD} }`);
    expect(result).toMatchObject({
      ok: true,
      plan: {
        title: "Untitled",
        room: null,
        ambient: { lux: 0 },
        lights: [],
        people: [],
        backdrop: null,
        camera: { position: [0, 0, 1.5], focalLength: 85, shutter: 0.00625, headroom: 2.96 },
      },
    });
  });
  it("names are numbered, and pass over those that are taken", () => {
    const light = '"position": [0, 0, 2], "direction": { "bearing": 180 }, "face": { "shape": "point" }';
    const result = parsePlan(
      `{ ${HEAD}, "lights": [{ ${light}, "output": { "lumenSeconds": 1 } },
        { "name": "light 3", ${light}, "output": { "lumenSeconds": 1 } },
        { ${light}, "output": { "lumenSeconds": 1 } }], "people": [{ "position": [0, 2] }] }`,
    );
    if (!result.ok) throw new Error(JSON.stringify(result.problems));
    expect(result.plan.lights.map((l) => l.name)).toEqual(["light 1", "light 3", "light 4"]);
    expect(result.plan.people[0].name).toBe("person 1");
    expect(result.plan.lights[0].direction).toEqual({ bearing: 180, tilt: 0 });
  });
  it("the camera stands inside any room, and paper hangs no higher than it", () => {
    const small =
      '"room": { "width": 2, "depth": 2, "height": 2 }, "backdrop": { "kind": "paper", "position": [1, 1.8] }';
    expect(parsePlan(`{ ${HEAD}, ${small} }`)).toMatchObject({
      ok: true,
      plan: { camera: { position: [1, 0.5, 1] }, backdrop: { top: 2 } },
    });
  });
});

describe("[PL2] a wrong field is named with its path, its value, what is allowed and the cure", () => {
  // biome-ignore lint/suspicious/noExplicitAny: as in testing/told.ts
  it.each<[string, (p: any) => void, string | RegExp]>([
    ["unknown", (p) => (p.lights[0].beem = 1), 'lights[0].beem: unknown field; did you mean "beam"?'],
    ["unknown on top", (p) => (p.titel = "x"), 'titel: unknown field; did you mean "title"?'],
    [
      "unknown and like nothing",
      (p) => (p.ambient = { warmth: 1 }),
      "ambient.warmth: unknown field; take it out. ambient may have: lux",
    ],
    [
      "of another shape",
      (p) => (p.lights[0].face = { shape: "disc", width: 1, height: 1 }),
      "lights[0].face.height: a disc has no height; take it out",
    ],
    [
      "of another form",
      (p) => (p.lights[0].direction = { at: [1, 1, 1], tilt: 3 }),
      "lights[0].direction.tilt: does not go together with at; take one or the other out",
    ],
    ["wrong type", (p) => (p.title = 3), "title: must be text in quotes; it is 3"],
    [
      "a group's place",
      (p) => (p.camera = [1]),
      "camera: must be a group of fields in braces: { … }; it is [1]",
    ],
    [
      "a list's place",
      (p) => (p.lights = {}),
      "lights: must be a list in brackets: [ … ]; it is a group in braces { … }",
    ],
    [
      "NaN as text",
      (p) => (p.lights[0].kelvin = "NaN"),
      'lights[0].kelvin: must be a number from 1500 to 20000 K; it is "NaN", which is text: write a number without quotes',
    ],
    [
      "a number in quotes",
      (p) => (p.camera.focalLength = "85"),
      'camera.focalLength: must be a number from 1 to 2000 mm; it is "85"; take the quotes off',
    ],
    [
      "no such shape",
      (p) => (p.lights[0].face.shape = "disk"),
      'lights[0].face.shape: must be "disc", "rectangle", "polygon" or "point"; it is "disk"',
    ],
    [
      "zero size",
      (p) => (p.lights[0].face.width = 0),
      "lights[0].face.width: must be a number from 0.001 to 100 m; it is 0",
    ],
    [
      "too many sides",
      (p) => (p.lights[0].face.sides = 7.5),
      "lights[0].face.sides: must be a whole number from 3 to 64; it is 7.5",
    ],
    ["missing", (p) => delete p.lights[0].output, /^lights\[0\]\.output: must be one of .*; it is missing/],
    [
      "wrong inside one form of several",
      (p) => (p.lights[0].output = { wattSeconds: -5 }),
      "lights[0].output.wattSeconds: must be a number from 0 to 1000000 Ws; it is -5",
    ],
    [
      "of two forms, the one with less wrong counts",
      (p) => (p.lights[0].output = { lumenSeconds: 1, wattSeconds: "a", stopsDown: 1 }),
      ["wattSeconds", "stopsDown"]
        .map(
          (f) => `lights[0].output.${f}: does not go together with lumenSeconds; take one or the other out`,
        )
        .join("\n"),
    ],
    [
      "of no form",
      (p) => (p.lights[0].output = { stopsDown: 1 }),
      /^lights\[0\]\.output: must be one of .*; it is a group in braces/,
    ],
    [
      "of no form because of a slip",
      (p) => (p.lights[0].output = { guidNumber: 40, stopsDown: 1 }),
      'lights[0].output.guidNumber: unknown field; did you mean "guideNumber"?',
    ],
    [
      "a group where a number or a list belongs",
      (p) => (p.panels[0].reflectance = { r: 1 }),
      /^panels\[0\]\.reflectance: must be a number from 0 to 1, or three of them: \[r, g, b\]; it is a group/,
    ],
    ["a reserved word", (p) => (p.lights[0].name = "__proto__"), /^lights\[0\]\.name: must be another name/],
    [
      "one colour of three",
      (p) => (p.panels[0].reflectance = [0.5, 0.5, 1.5]),
      "panels[0].reflectance[2]: must be a number from 0 to 1; it is 1.5",
    ],
    [
      "10,000 lights, all of one name",
      (p) => (p.lights = Array(10000).fill(p.lights[0])),
      "lights: must have at most 64 entries; it is a list of 10000",
    ],
    [
      "a line break in a name",
      (p) => (p.lights[0].name = "a\nb"),
      /^lights\[0\]\.name: must be one line.*"a\\nb"$/,
    ],
    ["format", (p) => (p.format = "other"), 'format: must be "tapemark/plan"; it is "other"'],
    ["version in words", (p) => (p.version = "1"), 'version: must be 1; it is "1"'],
  ])("%s", (_, change, message) => {
    if (typeof message === "string") expect(broken(change)).toBe(message);
    else expect(broken(change)).toMatch(message);
  });
  it("1e999 is more than a number", () =>
    expect(told(`{ ${HEAD}, "ambient": { "lux": 1e999 } }`)).toBe(
      "ambient.lux: must be a number from 0 to 200000 lx; it is more than a number can hold",
    ));
  it("a field called __proto__ is an unknown field and nothing more", () => {
    expect(told(`{ ${HEAD}, "__proto__": { "title": "x" } }`)).toMatch(/^__proto__: unknown field/);
    expect(told(`{ ${HEAD}, "camera": { "__proto__": null } }`)).toMatch(/^camera\.__proto__: unknown field/);
    expect(Object.hasOwn(Object.prototype, "title")).toBe(false);
  });
  it("of two fields of one name the last counts", () =>
    expect(parsePlan(`{ ${HEAD}, "title": "a", "title": "b" }`)).toMatchObject({
      ok: true,
      plan: { title: "b" },
    }));
});

describe("[PL3] all problems come at once, in the order of the document, a hundred at most", () => {
  it("faults of every kind together", () => {
    const text = `{ "titel": 1, "camera": { "iso": 0, "position": [9, 1, 1] }, ${HEAD},
      "room": { "width": 4, "depth": 4, "height": 3 },
      "lights": [{ "name": "a", "position": [1, 1, -1], "beam": 5 }, { "name": "a" }] }`;
    expect(
      told(text)
        .split("\n")
        .map((line) => line.split(": ")[0]),
    ).toEqual([
      "titel",
      "camera.iso",
      "camera.position[0]",
      "lights[0].position[2]",
      "lights[0].beam",
      "lights[0].direction",
      "lights[0].face",
      "lights[0].output",
      "lights[1].name",
      "lights[1].position",
      "lights[1].direction",
      "lights[1].face",
      "lights[1].output",
    ]);
  });
  it("what is over a hundred is counted, of unknown fields and of others", () => {
    const unknown = Array.from({ length: 250 }, (_, i) => `"zz${i}": 0`).join(",");
    const lines = told(`{ ${HEAD}, "ambient": { "lux": -1 }, ${unknown} }`).split("\n");
    expect(lines.length).toBe(101);
    expect(lines[0]).toMatch(/^ambient\.lux/);
    expect(lines[100]).toBe("plan: and 151 more problems like these");
    const empty = told(`{ ${HEAD}, "lights": [${Array(64).fill("{}").join(",")}] }`).split("\n");
    expect(empty.length).toBe(101);
    expect(empty[100]).toBe("plan: and 156 more problems like these");
  });
});
