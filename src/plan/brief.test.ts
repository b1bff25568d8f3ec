import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { applyEdit, checkPlan, parsePlan, serialisePlan, setField } from "./index.ts";

const PERSON = { position: [2.5, 3] };
const OCTA = { name: "octa 120", face: { shape: "polygon", sides: 8, width: 1.2 } };
const HEAD = { name: "head", full: { wattSeconds: 500 }, fronts: [OCTA] };

const planWith = (brief: unknown, people: unknown[] = [PERSON]) => ({
  format: "tapemark/plan",
  version: 1,
  room: { width: 5, depth: 6, height: 3 },
  people,
  brief,
});

function read(brief: unknown, people?: unknown[]) {
  const result = checkPlan(planWith(brief, people));
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.plan.brief;
}

/** All problems, one a line. */
function told(brief: unknown, people?: unknown[]): string {
  const result = checkPlan(planWith(brief, people));
  return result.ok ? "" : result.problems.map((p) => `${p.path}: ${p.what}`).join("\n");
}

describe("[BR1] a brief may be left out, and so may everything in it", () => {
  it("a plan without one has none, and is written with null", () => {
    const parsed = parsePlan(readFileSync("examples/manual-start.json", "utf8"));
    if (!parsed.ok) throw new Error("does not parse");
    expect(parsed.plan.brief).toBeNull();
    expect(JSON.parse(serialisePlan(parsed.plan)).brief).toBeNull();
  });
  it("an empty one asks for nothing but headroom, with what stands in the plan", () => {
    expect(read({})).toEqual({
      person: 0,
      want: {
        pattern: null,
        litSide: null,
        side: null,
        ratioStops: null,
        shadowEdgeMillimetres: null,
        backgroundStops: null,
        fNumber: null,
        headroomStops: 0.3,
        catchlight: null,
        azimuth: null,
        elevation: null,
        spreadStops: null,
        crop: null,
      },
      lenses: [],
      cameraDistance: null,
      gear: null,
      clear: { ceiling: 0.05, walls: 0.05, people: 0.4 },
      hold: { exposureStops: 0.333333, ratioStops: 0.333333, headroomStops: 0 },
    });
  });
  it("gear has the numbers of an ordinary head, stand and board; a range may be open to one side", () => {
    const brief = read({
      want: { ratioStops: { from: 1 } },
      gear: { lights: [HEAD], panels: [{ name: "board", width: 1.2, height: 2 }] },
    });
    expect(brief?.want.ratioStops).toEqual({ from: 1, to: null });
    expect(brief?.gear).toMatchObject({
      lights: [
        {
          full: { wattSeconds: 500, lumensPerWatt: 35, efficiency: 0.55 },
          dial: { marked: "stops", range: 6, step: 0.1 },
          kelvin: 5600,
          fronts: [{ beam: { exponent: 1, edgeDrop: 0 }, stopsLost: 0 }],
          stand: { lowest: 0.6, highest: 2.8, boom: 0 },
        },
      ],
      panels: [{ reflectance: 0.85 }],
    });
  });
});

describe("[BR2] a wrong field is named with its path, its value, what is allowed and the cure", () => {
  it.each([
    [{ want: { patern: "loop" } }, 'brief.want.patern: unknown field; did you mean "pattern"?'],
    [{ want: { pattern: "dark" } }, /^brief\.want\.pattern: must be "flat", .* or "under"; it is "dark"/],
    [
      { want: { ratioStops: 1 } },
      "brief.want.ratioStops: must be a group of fields in braces: { … }; it is 1",
    ],
    [
      { want: { ratioStops: { from: 11 } } },
      "brief.want.ratioStops.from: must be a number from 0 to 10 stops; it is 11",
    ],
    [
      { want: { catchlight: { clock: 13 } } },
      "brief.want.catchlight.clock: must be a number from 0 to 12 hours; it is 13",
    ],
    [{ lenses: [0.5] }, "brief.lenses[0]: must be a number from 1 to 2000 mm; it is 0.5"],
    [{ gear: { lights: [{ ...HEAD, fronts: [] }] } }, /fronts: must have at least one front/],
    [
      { gear: { lights: [{ ...HEAD, full: { guideNumber: 40 } }] } },
      /^brief\.gear\.lights\[0\]\.full: must be \{ "wattSeconds": … \} or/,
    ],
  ])("%j", (brief, line) => {
    if (typeof line === "string") expect(told(brief)).toBe(line);
    else expect(told(brief)).toMatch(line);
  });
});

describe("[BR3] a brief makes sense", () => {
  const two = [PERSON, { position: [3.2, 3] }];
  const gear = (light: object) => ({ gear: { lights: [{ ...HEAD, ...light }] } });

  it("it is about somebody; nobody yet is whoever comes first", () => {
    expect(told({ person: 1 }, two)).toBe("");
    expect(told({}, [])).toBe("");
    expect(told({ person: 1 })).toBe(
      "brief.person: must be the place of somebody in people; it is 1, people has 1, and the first is 0",
    );
    expect(told({ person: 2 }, [])).toMatch(/it is 2, nobody is in the plan: 0 is whoever comes first$/);
  });
  it("somebody it is about is not taken away", () => {
    const checked = checkPlan(planWith({ person: 1 }, two));
    if (!checked.ok) throw new Error("is wrong");
    const edit = { kind: "remove", label: "taken away", list: "people", index: 1 } as const;
    expect(applyEdit(checked.plan, edit)).toMatchObject({ ok: false, problems: [{ path: "brief.person" }] });
    const freed = applyEdit(checked.plan, setField("about the first", ["brief", "person"], 0));
    expect(freed.ok && applyEdit(freed.plan, edit).ok).toBe(true);
  });
  it.each(["ratioStops", "shadowEdgeMillimetres", "backgroundStops", "fNumber"])(
    "%s goes upward",
    (field) => {
      expect(told({ want: { [field]: { from: 4, to: 4 } } })).toBe("");
      expect(told({ want: { [field]: { from: 5, to: 4 } } })).toMatch(
        new RegExp(`^brief\\.want\\.${field}\\.from: must be at most 4.*, where the range ends; it is 5`),
      );
    },
  );
  it("so does the camera's distance", () => {
    expect(told({ cameraDistance: { from: 3, to: 2 } })).toBe(
      "brief.cameraDistance.from: must be at most 2 m, where the range ends; it is 3 m",
    );
  });
  it("a spread needs two faces", () => {
    expect(told({ want: { spreadStops: 0.5 } }, two)).toBe("");
    expect(told({ want: { spreadStops: 0.5 } })).toMatch(
      /^brief\.want\.spreadStops: must be null or left out/,
    );
  });
  it("gear is told apart by name, and no light is called ambient", () => {
    expect(told({ gear: { lights: [HEAD, HEAD] } })).toBe(
      'brief.gear.lights[1].name: must be a name of its own; "head" is already brief.gear.lights[0]',
    );
    expect(told(gear({ fronts: [OCTA, OCTA] }))).toMatch(/fronts\[1\]\.name: .* is already brief\.gear/);
    const board = { name: "board", width: 1, height: 1 };
    expect(told({ gear: { panels: [board, board] } })).toMatch(/^brief\.gear\.panels\[1\]\.name: /);
    expect(told(gear({ name: "ambient" }))).toMatch(/^brief\.gear\.lights\[0\]\.name: .*another name/);
  });
  it("a stand's lowest is no higher than its highest, and a front with a size is no bare bulb", () => {
    expect(told(gear({ stand: { lowest: 2, highest: 1.5 } }))).toBe(
      "brief.gear.lights[0].stand.lowest: must be at most 1.5 m, the highest; it is 2 m",
    );
    expect(told(gear({ fronts: [{ ...OCTA, beam: { exponent: 0.5 } }] }))).toMatch(
      /^brief\.gear\.lights\[0\]\.fronts\[0\]\.beam\.exponent: must be a number from 1 to 60/,
    );
  });
  it("all problems come at once, those of the brief after those of the set", () => {
    const lines = told({ person: 3, want: { patern: 1 }, cameraDistance: { from: 3, to: 2 } }, [
      { position: [9, 3] },
    ]).split("\n");
    expect(lines.map((line) => line.split(":")[0])).toEqual([
      "people[0].position[0]",
      "brief.person",
      "brief.want.patern",
      "brief.cameraDistance.from",
    ]);
  });
});

describe("[BR5] the examples with a brief ask for what their titles say", () => {
  const example = (name: string) => {
    const parsed = parsePlan(readFileSync(`examples/brief-${name}.json`, "utf8"));
    if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
    const { brief, ...plan } = parsed.plan;
    if (brief === null) throw new Error("no brief");
    return { plan, ...brief };
  };

  it("poster: Rembrandt from the left with one head, the camera kept", () => {
    const { plan, want, gear } = example("poster");
    expect(want).toMatchObject({ pattern: "rembrandt", litSide: "left" });
    expect([gear?.lights.length, gear?.panels.length]).toEqual([1, 0]);
    expect(plan.camera.pinned).toBe(true);
  });
  it("small room: white all round, 2.4 m high, with a black board and a white one", () => {
    const { plan, gear } = example("small-room");
    expect(plan.room?.height).toBe(2.4);
    expect(Math.min(...Object.values(plan.room?.reflectance ?? {}).map(Number))).toBe(0.4);
    expect(gear?.panels.map((p) => p.reflectance)).toEqual([0.04, 0.85]);
  });
  it("two lights: loop, the paper about a stop under the face", () => {
    const { plan, want, gear } = example("two-lights");
    expect(want.pattern).toBe("loop");
    expect(((want.backgroundStops?.from ?? 0) + (want.backgroundStops?.to ?? 0)) / 2).toBeCloseTo(-1, 6);
    expect([plan.backdrop?.kind, gear?.lights.length]).toEqual(["paper", 2]);
  });
  it("quartet: four faces within half a stop, on a black stage", () => {
    const { plan, want, person } = example("quartet");
    expect([plan.people.length, want.spreadStops, plan.people[person].name]).toEqual([
      4,
      0.5,
      "second violin",
    ]);
    expect(plan.room?.reflectance.ceiling).toBe(0.05);
  });
});
