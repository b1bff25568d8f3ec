import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { newPlan, parsePlan, serialisePlan } from "./index.ts";

it("[PL15] a new plan is an empty room with a camera in it", () => {
  const plan = newPlan();
  expect(plan.room).toMatchObject({ width: 5, depth: 6, height: 3 });
  expect(plan.camera.position).toEqual([2.5, 1, 1.5]);
  expect([plan.lights, plan.panels, plan.people, plan.meters]).toEqual([[], [], [], []]);
});

it("[PL16] fields stand in the order of the format, whatever order they came in", () => {
  const text = serialisePlan(newPlan());
  const backwards = JSON.stringify(JSON.parse(text), (_, v) =>
    v && typeof v === "object" && !Array.isArray(v) ? Object.fromEntries(Object.entries(v).reverse()) : v,
  );
  const back = parsePlan(backwards);
  expect(back.ok && serialisePlan(back.plan)).toBe(text);
  expect(serialisePlan(JSON.parse(backwards))).toBe(text);
  expect(text).toMatch(/^{\n {2}"format": "tapemark\/plan",\n {2}"version": 1,\n {2}"title"/);
  expect(text.endsWith("}\n")).toBe(true);
});

it("[PL16] numbers have six decimals at most, a shutter under a second six digits", () => {
  const plan = newPlan();
  const text = serialisePlan({
    ...plan,
    camera: { ...plan.camera, position: [1 / 3, -0, 6.123e-17], shutter: 1 / 12800 },
  });
  expect(JSON.parse(text).camera).toMatchObject({ position: [0.333333, 0, 0], shutter: 0.000078125 });
});

it("[PL16] what is on the edge of being allowed is still allowed when it is read back", () => {
  const plan = newPlan();
  const panel = {
    name: "p",
    position: [5, 6, 3],
    direction: { bearing: 0, tilt: 0 },
    reflectance: 0.1234564,
  };
  const edge = parsePlan(
    JSON.stringify({
      ...plan,
      room: { ...plan.room, width: 5.0000004 },
      panels: [{ ...panel, position: [5.0000004, 6, 3], transmittance: 0.8765435 }],
    }),
  );
  if (!edge.ok) throw new Error(JSON.stringify(edge.problems));
  expect(parsePlan(serialisePlan(edge.plan)).ok).toBe(true);
});

it.each(["cellist", "manual-start", "group"])(
  "[PL16] %s: writing and reading back changes nothing",
  (file) => {
    const parsed = parsePlan(readFileSync(`examples/${file}.json`, "utf8"));
    if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
    expect(parsePlan(serialisePlan(parsed.plan))).toEqual(parsed);
  },
);
