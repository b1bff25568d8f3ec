/** Situations that a portrait photographer meets, worked through with their sums: what the gear can do.
 * Invented situation; the sums are by hand and stand beside it (docs/spec/situations.md). */
import { describe, expect, it } from "vitest";
import { canItDo, putOn, STARTER_SHELF, stopsForCamera } from "../src/gear/index.ts";
import { applyEdit, type Plan, type Vec3 } from "../src/plan/index.ts";
import { noseTip, stagePerson } from "../src/staging/index.ts";
import { type Point, planOf, readOne } from "./plans.ts";

const NOSE = noseOf(planOf({ people: [{ position: [0, 0] }], camera: { position: [0, -2, 1.6] } }));
const FACE = { shape: "polygon", sides: 8, width: 0.9 };

function noseOf(plan: Plan): Vec3 {
  return noseTip(stagePerson(plan.people[0], plan));
}

/** 45 degrees round and 30 up, so far from the nose. */
function alongKey(distance_m: number): Point {
  const [round, up] = [Math.PI / 4, Math.PI / 6];
  const level = distance_m * Math.cos(up);
  return [
    NOSE[0] + level * Math.sin(round),
    NOSE[1] - level * Math.cos(round),
    NOSE[2] + distance_m * Math.sin(up),
  ];
}

/** The key with its head at its least, 6 stops under full. */
const keyAt = (distance_m: number, wattSeconds: number) => ({
  name: "key",
  position: alongKey(distance_m),
  direction: { at: NOSE },
  face: FACE,
  output: { wattSeconds, efficiency: 0.55, stopsDown: 6 },
  dial: { range: 6 },
});

/** What a hand meter reads at the tip of the nose, facing the light. */
function reads(light: { readonly position: Point }): number {
  return readOne({ lights: [light] }, { position: NOSE, direction: { at: light.position } }).fNumber;
}

/** The head that a meter reads f/8 of, at its least and from 1.2 m: by the meter, not by the shelf. */
const WATT_SECONDS = 100 * (8 / reads(keyAt(1.2, 100))) ** 2;
const KEY = keyAt(1.2, WATT_SECONDS);

/** Bust of somebody who stands, 85 mm from 1.5 m. */
const plan = planOf({
  lights: [KEY],
  people: [{ name: "sitter", position: [0, 0] }],
  camera: {
    position: [NOSE[0], NOSE[1] - 1.5, NOSE[2]],
    direction: { at: NOSE },
    focalLength: 85,
    fNumber: 2,
  },
});

describe("[SI13] f/2 is wanted, and the key's least gives f/8", () => {
  const stopsMore = stopsForCamera(plan, reads(KEY));
  const told = () => canItDo(plan, 0, { units: "metric", stopsMore, shelf: STARTER_SHELF });
  const power = () => told().rows[0];

  it("2 log2 (8 / 2) = 4 stops too bright, told with the 3.5 cm that are sharp there", () => {
    expect(told().outside).toBeCloseTo(-4, 2);
    expect(power().word).toBe("too bright at its least");
    expect(power().sentence).toMatch(
      /^at −6\.0, its least, it gives 4\.0 stops more than is wanted; at f\/2 \+ 0\.0 and 1\.50 m/,
    );
    // 2 N c s (s - f) / f^2: with a circle of 0.03 mm 3.52 cm; ours is 1/1500 of the diagonal, 0.0288 mm: 3.39 cm
    const depth = (circle: number) => (2 * 2 * circle * 1500 * 1415) / 85 ** 2 / 10;
    expect(depth(0.03)).toBeCloseTo(3.5, 1);
    const said = Number(/(\d\.\d) cm are sharp/.exec(power().sentence)?.[1]);
    expect(Math.abs(said - depth(0.0288444))).toBeLessThan(0.06);
  });
  it("a filter of 4 stops on the lens: the key is not moved", () => {
    const [filter] = power().ways;
    expect(filter?.what).toBe("grey filter of 4.0 stops on the lens, which lets 1/16 through");
    expect(filter?.effect).toMatch(/^nothing is moved: direction, softness/);
    // through 1/16 of the light f/8 becomes f/2
    expect(reads(KEY) / Math.sqrt(16)).toBeCloseTo(2, 2);
  });
  it("going back instead: a meter reads f/2 from there, within a twentieth of a stop", () => {
    const way = power().ways.find(({ kind }) => kind === "distance");
    const to = Number(/back to (\d+\.\d+) m/.exec(way?.what ?? "")?.[1]);
    expect(to).toBeGreaterThan(4);
    expect(Math.abs(2 * Math.log2(reads(keyAt(to, WATT_SECONDS)) / 2))).toBeLessThan(0.05);
    expect(way?.effect).toMatch(/^direction stays; the front looks 1\d° wide instead of 4\d°, harder/);
  });
  it("a weaker head of the shelf has it within its dial", () => {
    expect(power().ways.filter(({ kind }) => kind === "head").length).toBeGreaterThan(0);
  });
});

describe("[GR8] a meter at the nose reads the same through what is put on, within half a step of the dial", () => {
  const [head] = STARTER_SHELF.heads;
  const before = planOf({
    lights: [KEY],
    people: [{ position: [0, 0] }],
    camera: { position: [0, -2, 1.6] },
  });
  it.each(STARTER_SHELF.modifiers.map((modifier) => [modifier.name, modifier] as const))(
    "%s",
    (_, modifier) => {
      const edited = applyEdit(before, putOn(before, 0, { head, modifier }).edit);
      if (!edited.ok) throw new Error("a sound plan");
      const [was, is] = [before, edited.plan].map(({ lights }) => reads(lights[0]));
      expect(Math.abs(2 * Math.log2(is / was))).toBeLessThan(0.05 + 0.005);
    },
  );
});
