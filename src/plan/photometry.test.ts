import { describe, expect, it } from "vitest";
import { checkPlan, parsePlan, serialisePlan } from "./index.ts";

/** Axially even, candela at 0 and 90 degrees unless others are given. */
function lamp(opening: string, candela = "1000 0", vertical = "0 90"): string {
  const count = vertical.split(" ").length;
  return [
    "IESNA:LM-63-2002",
    "TILT=NONE",
    `1 -1 1 ${count} 1 1 2 ${opening}`,
    "1 1 0",
    vertical,
    "0",
    candela,
  ].join("\r\n");
}

// biome-ignore lint/suspicious/noExplicitAny: documents are broken here in ways their type forbids
function plan(light: object, photometry: any = { "lamp.ies": lamp("0.4 0.6 0") }) {
  return {
    format: "tapemark/plan",
    version: 1,
    lights: [
      {
        position: [0, 0, 2],
        direction: { bearing: 0, tilt: 0 },
        beam: { photometry: "lamp.ies" },
        output: { lumenSeconds: 100 },
        ...light,
      },
    ],
    photometry,
  };
}

function face(opening: string) {
  const checked = checkPlan(plan({}, { "lamp.ies": lamp(opening) }));
  if (!checked.ok) throw new Error(checked.problems[0].what);
  return checked.plan.lights[0].face;
}

function told(document: object): string[] {
  const checked = checkPlan(document);
  return checked.ok ? [] : checked.problems.map((p) => `${p.path}: ${p.what}`);
}

describe("[PL19] a front that is left out has the size of its photometric file's opening", () => {
  it.each([
    ["width across and length upward", "0.4 0.6 0", { shape: "rectangle", width: 0.4, height: 0.6 }],
    ["round by two negative sizes", "-0.5 -0.5 0", { shape: "disc", width: 0.5 }],
    ["round by one, as older files have it", "-0.5 0 0", { shape: "disc", width: 0.5 }],
    ["no size", "0 0 0", { shape: "point" }],
    ["a tube on its side", "-0.1 1.2 -0.1", { shape: "rectangle", width: 0.1, height: 1.2 }],
    ["the same as older files have it", "0 1.2 -0.1", { shape: "rectangle", width: 0.1, height: 1.2 }],
    ["a tube that hangs", "-0.1 -0.1 1.2", { shape: "disc", width: 0.1 }],
    ["a line", "0 1.2 0", { shape: "rectangle", width: 0.001, height: 1.2 }],
  ])("%s", (_, opening, expected) => expect(face(opening)).toEqual(expected));

  it("one that is given stays", () => {
    const checked = checkPlan(plan({ face: { shape: "disc", width: 2 } }));
    expect(checked).toMatchObject({ ok: true, plan: { lights: [{ face: { shape: "disc", width: 2 } }] } });
  });
  it("without a photometric file a front must be given", () => {
    expect(told(plan({ beam: {} }))).toEqual([expect.stringMatching(/^lights\[0\]\.face: .*missing$/)]);
  });
  it("a written plan keeps the file's text, and reads back the same", () => {
    const checked = checkPlan(plan({}));
    if (!checked.ok) throw new Error(checked.problems[0].what);
    const text = serialisePlan(checked.plan);
    const again = parsePlan(text);
    if (!again.ok) throw new Error(again.problems[0].what);
    expect(again.plan.photometry).toEqual({ "lamp.ies": lamp("0.4 0.6 0") });
    expect(serialisePlan(again.plan)).toBe(text);
  });
  it("a file beside the plan is taken in, once for all lights that name it", () => {
    const asked: string[] = [];
    const { photometry: _, ...document } = plan({});
    const two = { ...document, lights: [document.lights[0], document.lights[0]] };
    const parsed = parsePlan(JSON.stringify(two), (name) => {
      asked.push(name);
      return lamp("0 0 0");
    });
    expect(asked).toEqual(["lamp.ies"]);
    expect(parsed).toMatchObject({ ok: true, plan: { photometry: { "lamp.ies": lamp("0 0 0") } } });
  });
});

describe("[PL20] what is wrong with a photometric file is one problem, with its name, line and reason", () => {
  const disc = { face: { shape: "disc", width: 1 } };
  const upward = { "lamp.ies": lamp("0 0 0", "100 100", "90 180") };
  it.each<[string, object, RegExp]>([
    [
      "cut short",
      plan({}, { "lamp.ies": lamp("0 0 0", "1000") }),
      /^lights\[0\]\.beam\.photometry: lamp\.ies, line 7: ends after 17 of 18 numbers/,
    ],
    [
      "not there",
      plan({}, {}),
      /^lights\[0\]\.beam\.photometry: lamp\.ies was not found; put the file beside the plan/,
    ],
    ["not there, and named like a built-in", plan({ beam: { photometry: "constructor" } }), /was not found/],
    ["in a folder", plan({ beam: { photometry: "../lamp.ies" } }), /beam\.photometry: .*without folders/],
    ["hidden", plan({ beam: { photometry: ".lamp" } }), /beam\.photometry: .*without folders/],
    ["no text", plan({}, { "lamp.ies": 3 }), /^photometry\["lamp\.ies"\]: must be the text of a photometric/],
    [
      "an exponent too",
      plan({ beam: { photometry: "lamp.ies", exponent: 8 } }),
      /beam\.exponent: must be left/,
    ],
    ["nothing forward", plan(disc, upward), /beam\.photometry: lamp\.ies sends nothing forward.*"point"$/],
    [
      "metered where nothing goes",
      plan({ output: { meter: { fNumber: 8, distance: 2 } } }, upward),
      /^lights\[0\]\.output: is measured on the axis, where lamp\.ies sends nothing/,
    ],
    [
      "a guide number where nothing goes",
      plan({ output: { guideNumber: 20 } }, { "lamp.ies": lamp("0 0 0", "0 100 0", "0 30 90") }),
      /^lights\[0\]\.output: is measured on the axis/,
    ],
  ])("%s", (_, document, problem) => expect(told(document)).toEqual([expect.stringMatching(problem)]));

  it("what stands under a name that is none is told at that name", () => {
    expect(told(plan({}, { "lamp.ies": lamp("0 0 0"), "a/lamp.ies": "x" }))[0]).toMatch(
      /^photometry\["a\/lamp\.ies"\]: .*without folders/,
    );
    expect(told(plan({}, 3))).toEqual([
      expect.stringMatching(/^photometry: must be a group in braces, of texts by file name/),
    ]);
  });
  it("light that goes up only is well from a point", () => expect(told(plan({}, upward))).toEqual([]));
  it("a file that nobody uses is not read", () => {
    expect(told(plan({}, { "lamp.ies": lamp("0 0 0"), "other.ies": "scribble" }))).toEqual([]);
  });
});
