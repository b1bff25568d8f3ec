import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { axesOf, directionOf, faceOutline, type Light, type Plan, parsePlan, type Vec3 } from "./index.ts";

function example(file: string): Plan {
  const parsed = parsePlan(readFileSync(`examples/${file}.json`, "utf8"));
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  return parsed.plan;
}

const distance = (a: readonly number[], b: readonly number[]) => Math.hypot(...a.map((v, k) => v - b[k]));
const aim = (light: Light): Vec3 => {
  if (!("at" in light.direction)) throw new Error(`${light.name} aims at nothing`);
  return light.direction.at;
};
const stopsApart = (a: number, b: number) => Math.abs(2 * Math.log2(a / b));

describe("[PL18] manual-start: 4 ft away, 2 ft over the eyes, 45 degrees to the lens axis", () => {
  const plan = example("manual-start");
  const light = plan.lights[0];
  const eyes = aim(light);
  const FOOT = 0.3048;

  it("stands where the manual says, to a millimetre", () => {
    expect(distance(light.position, eyes)).toBeCloseTo(4 * FOOT, 3);
    expect(light.position[2] - eyes[2]).toBeCloseTo(2 * FOOT, 3);
    const toLens = directionOf({ at: plan.camera.position }, eyes).bearing_deg;
    const toLight = directionOf({ at: light.position }, eyes).bearing_deg;
    expect(Math.abs(toLight - toLens)).toBeCloseTo(45, 2);
    expect(plan.room).toBeNull();
  });
  it("guide number 40 four stops down is 10: f/8.2 at 4 ft, the camera's f/8 within a tenth of a stop", () => {
    if (!("guideNumber" in light.output)) throw new Error("not by guide number");
    const { guideNumber, iso, stopsDown } = light.output;
    expect([guideNumber, iso, stopsDown]).toEqual([40, 100, 4]);
    expect(stopsApart(40 / 2 ** (4 / 2) / (4 * FOOT), plan.camera.fNumber)).toBeLessThan(0.1);
  });
});

describe("[PL18] cellist: a large octagon high to one side, a black panel on the other, grey paper", () => {
  const plan = example("cellist");
  const [key] = plan.lights;
  const [cellist] = plan.people;
  const face = aim(key);

  it("the room is 7 x 9 x 3.4 m and everything has its part", () => {
    expect(plan.room).toMatchObject({ width: 7, depth: 9, height: 3.4 });
    expect(key.face).toEqual({ shape: "polygon", sides: 8, width: 1.5 });
    expect(plan.backdrop).toMatchObject({ kind: "paper", reflectance: 0.18 });
    expect(plan.panels[0].reflectance).toBeLessThan(0.05);
    expect(plan.meters.map((m) => m.receptor)).toEqual(["flat", "dome", "spot"]);
  });
  it("the key is 1.62 m off, 45 degrees round from the nose and 34 up, and clears the ceiling", () => {
    // (0.95, -0.95, 0.9) from the face: sqrt(2 x 0.9025 + 0.81) = 1.617; atan(0.9 / 1.3435) = 33.8
    expect(distance(key.position, face)).toBeCloseTo(1.617, 3);
    const seen = directionOf({ at: key.position }, face);
    expect(Math.abs(seen.bearing_deg - cellist.facing)).toBeCloseTo(45, 6);
    expect(seen.tilt_deg).toBeCloseTo(33.82, 2);
    const { bearing_deg, tilt_deg } = directionOf(key.direction, key.position);
    const { right, up } = axesOf(bearing_deg, tilt_deg, key.roll);
    const top = Math.max(
      ...faceOutline(key.face).map(([w, h]) => key.position[2] + w * right[2] + h * up[2]),
    );
    expect(top).toBeLessThan((plan.room?.height ?? 0) - 0.1);
  });
  it("the panel stands on the side away from the key, within arm's reach", () => {
    const panel = plan.panels[0];
    expect((panel.position[0] - cellist.position[0]) * (key.position[0] - cellist.position[0])).toBeLessThan(
      0,
    );
    expect(distance(panel.position.slice(0, 2), cellist.position)).toBeLessThan(1);
  });
  it("the chin lies near f/8: a disc of that size gives Q / (pi (d^2 + r^2))", () => {
    if (!("wattSeconds" in key.output)) throw new Error("not by watt-seconds");
    const { wattSeconds, lumensPerWatt, efficiency, stopsDown } = key.output;
    const energy = wattSeconds * lumensPerWatt * efficiency * 2 ** -stopsDown;
    const chin = plan.meters[0].position;
    const exposure = energy / (Math.PI * (distance(key.position, chin) ** 2 + 0.75 ** 2));
    // bounce, the octagon's corners, the darker rim and a chin off the axis come to less than a third of a stop
    expect(stopsApart(Math.sqrt((exposure * 100) / 250), 8)).toBeLessThan(1 / 3);
  });
  it("skin has luminance 0.36", () => {
    const skin = cellist.skin.reflectance as readonly number[];
    // Rec. 709 weights; people differ by far more than 0.02
    expect(Math.abs(0.2126 * skin[0] + 0.7152 * skin[1] + 0.0722 * skin[2] - 0.36)).toBeLessThan(0.02);
  });
});

describe("[PL18] group: four in a row, one light far enough back to see how it falls off", () => {
  const plan = example("group");
  it("stands four across, each with a name", () => {
    expect(new Set(plan.people.map((p) => p.name)).size).toBe(4);
    const depths = plan.people.map((p) => p.position[1]);
    expect(Math.max(...depths) - Math.min(...depths)).toBeLessThan(0.3);
  });
  it("by the inverse square the far end has 0.5 to 1.5 stops less", () => {
    const [light] = plan.lights;
    const ends = [plan.people[0], plan.people[3]].map((p) => distance(light.position, [...p.position, 1.5]));
    const fallOff = Math.abs(2 * Math.log2(ends[0] / ends[1]));
    expect(fallOff).toBeGreaterThan(0.5);
    expect(fallOff).toBeLessThan(1.5);
  });
});

it("[PL18] the plans in docs/plan-file.md are valid, and the problems there are what is said", () => {
  const guide = readFileSync("docs/plan-file.md", "utf8");
  const blocks = [...guide.matchAll(/```json\n([\s\S]*?)```/g)].map((m) => m[1]);
  expect(blocks.length).toBe(2);
  for (const block of blocks) expect(parsePlan(block)).toMatchObject({ ok: true });
  const wrong = blocks[1]
    .replace('"name": "key",', '"name": "key", "beem": 1,')
    .replace("2.2, 2.2],", "2.2, -0.2],")
    .replace('"people"', '"camera": { "focalLength": "85" }, "people"');
  const told = parsePlan(wrong);
  const lines = told.ok ? [] : told.problems.map((p) => `${p.path}: ${p.what}`);
  expect(guide).toContain(`\`\`\`\n${lines.join("\n")}\n\`\`\``);
});

describe("[PL18] strip-by-file: a tall strip 2 m beside a cellist in profile", () => {
  const plan = example("strip-by-file");
  const [strip] = plan.lights;

  it("its front is its file's opening, upright, and the file travels in the plan", () => {
    expect(strip.face).toEqual({ shape: "rectangle", width: 0.2, height: 1.2 });
    expect(Object.keys(plan.photometry ?? {})).toEqual([strip.beam.photometry]);
  });
  it("the first meter is on its axis, 2 m off, the others half a metre up and aside", () => {
    const [axis, up, aside] = plan.meters.map((m) => m.position);
    expect(axis).toEqual(aim(strip));
    expect(distance(strip.position, axis)).toBe(2);
    expect(up.map((v, k) => v - axis[k])).toEqual([0, 0, 0.5]);
    expect(aside.map((v, k) => v - axis[k])).toEqual([0, 0.5, 0]);
  });
});
