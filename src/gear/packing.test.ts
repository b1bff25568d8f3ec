import { describe, expect, it } from "vitest";
import { applyEdit } from "../plan/index.ts";
import { EMPTY_SHELF, type PackingList, packingList, putOn, STARTER_SHELF, totalWords } from "./index.ts";
import { oneLight } from "./testing/plans.ts";

const [studio] = STARTER_SHELF.heads;
const [octa] = STARTER_SHELF.modifiers;
const boom = STARTER_SHELF.stands[2];

const SET = {
  panels: [
    {
      name: "black",
      position: [-1, 0, 1.2],
      direction: { bearing: 90 },
      width: 1.2,
      height: 2.4,
      reflectance: 0.04,
    },
  ],
  backdrop: { kind: "paper", position: [0, 3], width: 2.72, reflectance: 0.2 },
  camera: { position: [0, -2, 1.6], focalLength: 135, fNumber: 8 },
};

function fromShelf() {
  const plan = oneLight({ support: { load: 1, bag: 10 } }, SET);
  const { edit } = putOn(plan, 0, { head: studio, modifier: octa, stand: boom });
  const edited = applyEdit(plan, edit);
  if (!edited.ok) throw new Error("a sound plan");
  return edited.plan;
}
const lineOf = ({ lines }: PackingList, name: RegExp) => lines.find((line) => name.test(line.name));
/** each thing counted by itself */
const sum = ({ lines }: PackingList) => lines.reduce((kg, { count, mass }) => kg + count * (mass ?? 0), 0);

describe("[GR18] a packing list with weights", () => {
  it("a set from the shelf: everything by its name, with its weight, and what always comes along", () => {
    const list = packingList(fromShelf(), STARTER_SHELF, "metric");
    expect(list.lines.map(({ count, name, owners }) => [count, name, owners.join()])).toEqual([
      [1, "studio head 400 Ws", "key"],
      [1, "octa 120", "key"],
      [1, "V-flat leaf, black", "black"],
      [1, "boom stand", "key"],
      [1, "grey paper 2.72", "backdrop"],
      [1, "70 to 200 mm f/2.8", "camera"],
      [1, "45 megapixel body", "camera"],
      [1, "bag, 10 kg", "key"],
      [1, "counterweight, 5 kg", "key"],
      [1, "cables, tape, clamps", ""],
      [1, "hand meter", ""],
    ]);
    // 2.6 + 1.4 + 4 + (6 + 1.5 of its arm) + 6 + 1.5 + 0.75 + 10 + 5 + 4 + 0.2
    expect(list.total_kg).toBeCloseTo(42.95, 9);
    expect(list.missing).toEqual([]);
    expect(totalWords(list, "metric")).toBe("43.0 kg");
  });
  it("what is not on the shelf is listed by what the plan knows, and the total is at least what is weighed", () => {
    const list = packingList(oneLight({}, SET), EMPTY_SHELF, "feet");
    expect(list.lines.map(({ name }) => name)).toEqual([
      "head of 400 Ws",
      "round front 2′ 11½″",
      "black",
      "stand that reaches 6′ 6¾″",
      "paper roll 8′ 11″ wide",
      "lens of 135 mm",
      "camera body",
    ]);
    expect([list.total_kg, list.unweighed]).toEqual([0, 7]);
    expect(totalWords(list, "metric")).toBe("at least 0.0 kg: 7 of them are not weighed");
    expect(list.missing).toHaveLength(7);
    const weighed = packingList(
      oneLight({ support: { load: 4, name: "tall one", mass: 5 } }, SET),
      EMPTY_SHELF,
      "metric",
    );
    expect(lineOf(weighed, /with round front/)).toMatchObject({
      name: "head of 400 Ws with round front 0.90 m",
      mass: 4,
    });
    expect(lineOf(weighed, /tall one/)?.mass).toBe(5);
    // of a load that is known, what the shelf's head leaves is the front's
    const half = packingList(oneLight({ support: { load: 4 } }), STARTER_SHELF, "metric");
    expect(lineOf(half, /studio head/)?.mass).toBe(2.6);
    expect(lineOf(half, /round front/)?.mass).toBe(1.4);
  });
  it("where the plan names no stand, one of the shelf that reaches is taken", () => {
    const at = (z: number) =>
      packingList(oneLight({ position: [0.8, -1, z] }), STARTER_SHELF, "metric").lines.find(
        ({ kind }) => kind === "stands",
      );
    expect([at(2), at(0.4), at(3.5)].map((line) => line?.name)).toEqual([
      "stand",
      "low stand",
      "stand that reaches 3.50 m",
    ]);
    expect([at(2)?.mass, at(3.5)?.mass]).toEqual([2.5, null]);
  });
  it("of two of a kind there is one line, and more than the shelf has is told", () => {
    const one = fromShelf();
    const light = one.lights[0];
    const three = { ...one, lights: [light, { ...light, name: "fill" }, { ...light, name: "rim" }] };
    const list = packingList(three, STARTER_SHELF, "metric");
    expect(lineOf(list, /studio head/)).toMatchObject({
      count: 3,
      owners: ["key", "fill", "rim"],
      onShelf: 2,
    });
    expect(list.missing).toEqual([
      "studio head 400 Ws: 3 are needed, 2 on the shelf",
      "octa 120: 3 are needed, 1 on the shelf",
      "boom stand: 3 are needed, 1 on the shelf",
    ]);
    expect(list.total_kg).toBeCloseTo(sum(list), 9);
  });
  it("a bare head needs nothing on it; the counterweight is the plan's, not the one on the shelf", () => {
    const plan = fromShelf();
    const { edit } = putOn(plan, 0, { head: studio, modifier: null });
    const bare = applyEdit(plan, edit);
    if (!bare.ok) throw new Error("a sound plan");
    expect(
      packingList(bare.plan, STARTER_SHELF, "metric").lines.filter(({ kind }) => kind === "modifiers"),
    ).toEqual([]);
    const support = bare.plan.lights[0].support;
    const arm = support?.arm ? { ...support.arm, counterweight: 7.5 } : null;
    const heavy = {
      ...bare.plan,
      lights: [{ ...bare.plan.lights[0], support: support && { ...support, arm } }],
    };
    expect(lineOf(packingList(heavy, STARTER_SHELF, "metric"), /counterweight/)).toMatchObject({
      name: "counterweight, 7.5 kg",
      mass: 7.5,
    });
  });
});
