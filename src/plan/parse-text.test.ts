import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { checkPlan } from "./index.ts";
import { HEAD, told } from "./testing/told.ts";

const demoText = readFileSync("examples/cellist.json", "utf8");

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
