import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { checkPlan, parsePlan } from "./index.ts";

const demoText = readFileSync("examples/cellist.json", "utf8");
const HEAD = '"format": "tapemark/plan", "version": 1';

/** All problems of a text, one a line. */
function told(text: string): string {
  const result = parsePlan(text);
  return result.ok ? "" : result.problems.map((p) => `${p.path}: ${p.what}`).join("\n");
}

// biome-ignore lint/suspicious/noExplicitAny: the point is to break the document in ways its type forbids
function broken(change: (plan: any) => void): string {
  const raw = JSON.parse(demoText);
  change(raw);
  const result = checkPlan(raw);
  return result.ok ? "" : result.problems.map((p) => `${p.path}: ${p.what}`).join("\n");
}

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
  // biome-ignore lint/suspicious/noExplicitAny: as above
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

describe("[PL21] a head is plugged into a circuit that the plan has", () => {
  const lamp = {
    lights: [{ position: [1, 1, 1], direction: { bearing: 0, tilt: 0 }, face: { shape: "point" } }],
  };
  const plugged = (circuits: unknown[], circuit: string) =>
    told(
      JSON.stringify({
        format: "tapemark/plan",
        version: 1,
        circuits,
        lights: [{ ...lamp.lights[0], output: { lumenSeconds: 1 }, head: { circuit } }],
      }),
    );
  const wall = { name: "wall left", amps: 16 };
  it("there", () => expect(plugged([wall], "wall left")).toBe(""));
  it("not there", () => {
    const cure =
      /^lights\[0\]\.head\.circuit: must be the name of one of the plan's circuits; there is no "wall right"/;
    expect(plugged([wall], "wall right")).toMatch(cure);
  });
  it("two of one name", () => {
    expect(plugged([wall, wall], "wall left")).toMatch(/^circuits\[1\]\.name: must be a name of its own/);
  });
});

describe("[PL4] what cannot stand in a room is said", () => {
  // biome-ignore lint/suspicious/noExplicitAny: as above
  it.each<[string, (p: any) => void, string | RegExp]>([
    [
      "under the floor",
      (p) => (p.lights[0].position[2] = -0.2),
      "lights[0].position[2]: must be a number from 0 to 3.4 m; z = -0.2 m is under the floor",
    ],
    [
      "outside",
      (p) => (p.people[0].position = [7.2, 4]),
      "people[0].position[0]: must be a number from 0 to 7 m; x = 7.2 m is outside the room",
    ],
    [
      "two of one name",
      (p) => p.lights.push(structuredClone(p.lights[0])),
      'lights[1].name: must be a name of its own; "key" is already lights[0]',
    ],
    [
      "ambient is a word of readings",
      (p) => (p.lights[0].name = "ambient"),
      /^lights\[0\]\.name: must be another name/,
    ],
    [
      "aims at itself",
      (p) => (p.lights[0].direction = { at: p.lights[0].position }),
      /^lights\[0\]\.direction\.at: must be another point/,
    ],
    [
      "aims nearer to itself than a file can tell",
      (p) => (p.lights[0].direction = { at: p.lights[0].position.map((v: number) => v + 1e-8) }),
      /^lights\[0\]\.direction\.at: must be another point/,
    ],
    [
      "gives back a millionth more, once written to a file",
      (p) => Object.assign(p.panels[0], { reflectance: 0.0000015, transmittance: 0.9999985 }),
      /^panels\[0\]\.transmittance: must be a number from 0 to 0\.999998/,
    ],
    [
      "gives back more than it gets",
      (p) => (p.panels[0].transmittance = 0.97),
      /^panels\[0\]\.transmittance: must be a number from 0 to 0\.96: with the reflectance, 0\.04,/,
    ],
    [
      "a lobe that only points have",
      (p) => (p.lights[0].beam.exponent = 0.5),
      /^lights\[0\]\.beam\.exponent: must be a number from 1 to 60 for a front with a size/,
    ],
    [
      "taller than the room",
      (p) => (p.room.height = 1.5),
      /^people\[0\]\.stature: must be at most 1\.5 m, the height of the room; it is 1\.72 m/m,
    ],
    ["paper higher than the room", (p) => (p.backdrop.top = 4), /^backdrop\.top: must be at most 3\.4 m/],
    [
      "a curve larger than the paper",
      (p) => (p.backdrop.sweepRadius = 3),
      /^backdrop\.sweepRadius: must be at most 2\.8 m/,
    ],
  ])("%s", (_, change, message) => {
    if (typeof message === "string") expect(broken(change)).toBe(message);
    else expect(broken(change)).toMatch(message);
  });
  it("walls, floor and ceiling count as inside", () =>
    expect(
      broken((p) => {
        p.lights[0].position = [7, 9, 3.4];
        p.meters[0].position = [0, 0, 0];
      }),
    ).toBe(""));
  it("in open space everything is inside", () =>
    expect(
      broken((p) => {
        p.room = null;
        p.lights[0].position = [-3, -4, 5];
      }),
    ).toBe(""));
  it("a point may shine all over its half-space", () =>
    expect(
      broken((p) => {
        p.lights[0].face = { shape: "point" };
        p.lights[0].beam = { exponent: 0 };
      }),
    ).toBe(""));
});

describe("[PL5] text that is no plan is told from the outside", () => {
  it.each<[string, string, RegExp]>([
    ["empty", "", /^plan: is empty/],
    ["blank", " \n\t", /^plan: is empty/],
    ["not JSON", "{", /^plan: is not JSON: line 1, column 2: the text ends too early/],
    ["a list", "[]", /^plan: must be a group in braces .*; it is \[\]$/],
    ["null", "null", /^plan: must be a group in braces .*; it is null$/],
    ["100,000 levels", "[".repeat(100_000), /^plan: has brackets more than 64 deep/],
    [
      "100,000 levels that close",
      "[".repeat(100_000) + "]".repeat(100_000),
      /^plan: has brackets more than 64 deep/,
    ],
    ["50 MiB", " ".repeat(50 * 1024 * 1024), /^plan: is 50\.0 MiB of text; a plan has at most 8 MiB/],
  ])("%s", (_, text, message) => expect(told(text)).toMatch(message));
  it("64 levels are looked at as JSON, brackets inside text do not count", () => {
    expect(told(`{ ${HEAD}, "a": ${"[".repeat(63)}${"]".repeat(63)} }`)).toMatch(/^a: unknown field/);
    expect(told(`{ ${HEAD}, "title": "\\"${"[".repeat(100)}" }`)).toBe("");
  });
  it("a byte-order mark is no problem", () => expect(told(`\ufeff${demoText}`)).toBe(""));
  it("almost 8 MiB of wrong entries are told within a moment", () => {
    const text = `{ ${HEAD}, "lights": [${"{},".repeat(2_600_000)}1] }`;
    expect(told(text)).toBe("lights: must have at most 64 entries; it is a list of 2600001");
  }, 10_000);
});

describe("[PL6] versions", () => {
  const old = { format: "tapemark/plan", version: -1, name: "old", camera: { film: 100 } };
  const ways = [
    { from: -1, change: ({ name, ...rest }: Record<string, unknown>) => ({ ...rest, called: name }) },
    {
      from: 0,
      change: ({ called, camera, ...rest }: Record<string, unknown>) => {
        const body = camera as Record<string, unknown>;
        body.iso = body.film;
        delete body.film;
        return { ...rest, camera: body, title: called };
      },
    },
  ];
  it("an older plan is brought forward step by step, and the old document is left as it was", () => {
    const before = JSON.stringify(old);
    expect(checkPlan(old, ways)).toMatchObject({
      ok: true,
      plan: { version: 1, title: "old", camera: { iso: 100 } },
    });
    expect(JSON.stringify(old)).toBe(before);
  });
  it("an older plan without a way, or that its way cannot read, is a problem", () => {
    const fails = {
      from: 0,
      change: () => {
        throw new Error("broken");
      },
    };
    for (const way of [[], [ways[0]], [ways[0], fails]])
      expect(checkPlan(old, way)).toEqual({
        ok: false,
        problems: [
          {
            path: "version",
            what: "must be 1; it is -1, and no plan of that version can be brought forward",
          },
        ],
      });
  });
  it("a newer plan asks for a newer program", () =>
    expect(told('{ "format": "tapemark/plan", "version": 2, "somethingNew": 1 }')).toBe(
      "version: was made by a newer Tapemark: it is plan version 2, and this one reads up to 1; update Tapemark",
    ));
});

it("[PL7] values that no file can hold are problems too, not failures", () => {
  const ring: Record<string, unknown> = { format: "tapemark/plan", version: 1 };
  ring.camera = ring;
  for (const value of [ring, 1n, Symbol("s"), () => 1, new Date(0), { ...ring, lights: new Map() }])
    expect(checkPlan(value).ok).toBe(false);
});
