import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { z } from "zod";
import { planJsonSchema } from "./json-schema.ts";

const published = readFileSync("docs/plan.schema.json", "utf8");

it("[PL17] the published JSON Schema is that of the source; write it anew with node scripts/plan-schema.mjs", () => {
  expect(published).toBe(`${JSON.stringify(planJsonSchema(), null, 2)}\n`);
});

it("[PL17] read back from the published file, it takes the examples and refuses what is wrong", () => {
  const schema = z.fromJSONSchema(JSON.parse(published));
  const example = (file: string) => JSON.parse(readFileSync(`examples/${file}.json`, "utf8"));
  for (const file of ["cellist", "manual-start", "group"])
    expect(schema.safeParse(example(file)).error).toBeUndefined();
  expect(schema.safeParse({ format: "tapemark/plan", version: 1 }).success).toBe(true);
  expect(schema.safeParse({ format: "tapemark/plan" }).success).toBe(false);
  const { lights } = example("cellist");
  for (const wrong of [
    { beem: 1 },
    { kelvin: "NaN" },
    { position: [1, 2] },
    { face: { shape: "disc", width: 0 } },
  ])
    expect(schema.safeParse({ ...example("cellist"), lights: [{ ...lights[0], ...wrong }] }).success).toBe(
      false,
    );
});

it("[PL1] every default gives its reason", () => {
  const missing: string[] = [];
  const walk = (node: unknown, path: string) => {
    if (typeof node !== "object" || node === null) return;
    const { default: value, description } = node as { default?: unknown; description?: string };
    const isOnlyContainer = JSON.stringify(value) === "{}";
    if (value !== undefined && !isOnlyContainer && !/left out/.test(description ?? "")) missing.push(path);
    for (const [key, inner] of Object.entries(node)) walk(inner, `${path}/${key}`);
  };
  walk(planJsonSchema(), "");
  expect(missing).toEqual([]);
});
