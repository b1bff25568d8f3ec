import { describe, expect, it } from "vitest";
import { applyEdit, type Plan } from "../plan/index.ts";
import { axisShareOf, energyNow, toFace } from "./at-face.ts";
import {
  briefGear,
  EMPTY_SHELF,
  KITS,
  type Putting,
  putOn,
  readShelf,
  STARTER_SHELF,
  USUAL_LIGHT,
} from "./index.ts";
import { oneLight } from "./testing/plans.ts";

const [studio, , small] = STARTER_SHELF.heads;
const [octa, , box, , dish] = STARTER_SHELF.modifiers;
const [stand, low, boom] = STARTER_SHELF.stands;

const madeOf = (plan: Plan, what: Putting) => {
  const { edit, says } = putOn(plan, 0, what);
  const edited = applyEdit(plan, edit);
  if (!edited.ok) throw new Error(edited.problems.map(({ path, what }) => `${path}: ${what}`).join("; "));
  return { light: edited.plan.lights[0], plan: edited.plan, says, label: edit.label };
};
/** lx.s at the face, on the front's axis */
const atFace = (plan: Plan) =>
  energyNow(plan.lights[0], plan) * axisShareOf(plan.lights[0], plan, toFace(plan, plan.lights[0]));
const stops = (a: Plan, b: Plan) => Math.log2(atFace(b) / atFace(a));

const BY_METER = { meter: { fNumber: 8, distance: 1.2 } };
const OUTPUTS = [
  { wattSeconds: 400, efficiency: 0.5, stopsDown: 3 },
  { lumenSeconds: 900 },
  BY_METER,
  { guideNumber: 30, stopsDown: 4 },
];

describe("[GR8] a head and what is on it, put on a light: the face keeps what it had", () => {
  it.each(OUTPUTS)("from %j, within half a step of the dial", (output) => {
    const plan = oneLight({ output, calibration: { stops: 0.4, uncertaintyStops: 0.1 } });
    for (const modifier of [octa, box, dish, null]) {
      const put = madeOf(plan, { head: studio, modifier });
      const { dial, output: made } = put.light;
      expect("stopsDown" in made && made.stopsDown).toBeLessThan(dial.range);
      expect(Math.abs(stops(plan, put.plan)), modifier?.name ?? "bare").toBeLessThanOrEqual(
        studio.dial.step / 2 + 1e-6,
      );
      expect(put.says).toMatch(/^power −\d\.\d: the face keeps what it had$/);
      expect(put.light.position).toEqual(plan.lights[0].position);
      expect(put.light.direction).toEqual(plan.lights[0].direction);
      expect(put.light.calibration).toBeNull();
    }
  });
  it("a head told in lumen-seconds keeps its dial too", () => {
    const plan = oneLight();
    const put = madeOf(plan, { head: { ...studio, full: { lumenSeconds: 14000 } }, modifier: octa });
    expect(Math.abs(stops(plan, put.plan))).toBeLessThanOrEqual(0.05 + 1e-6);
    expect(put.light.output).toMatchObject({
      guideNumber: expect.any(Number),
      stopsDown: expect.any(Number),
    });
  });
  it("what its dial cannot keep is said with its stops", () => {
    const plan = oneLight({ output: { wattSeconds: 600, efficiency: 0.54, stopsDown: 0 } });
    const weak = madeOf(plan, { head: small, modifier: octa });
    const missing = -stops(plan, weak.plan);
    expect(missing).toBeGreaterThan(2.5);
    expect(weak.says).toBe(`power full, its most: the face gets ${missing.toFixed(1)} stops less`);
    const dim = oneLight({ output: { wattSeconds: 600, efficiency: 0.54, stopsDown: 9 } });
    const strong = madeOf(dim, { head: studio, modifier: octa });
    expect(strong.says).toBe(
      `power −6.0, its least: the face gets ${stops(dim, strong.plan).toFixed(1)} stops more`,
    );
  });
  it("the plan says which head it is, what is on it, and how it charges and flashes; its circuit stays", () => {
    const plan = oneLight({ head: { circuit: null } });
    const { light, label } = madeOf(plan, { head: studio, modifier: octa, stand });
    expect(label).toBe("octa 120 on studio head 400 Ws on stand for key");
    expect(light.head).toEqual({
      name: "studio head 400 Ws",
      modifier: "octa 120",
      recycle: 1.2,
      duration: { seconds: expect.closeTo(1 / 900, 5), measured: "t0.5" },
      lampWatts: 60,
      charging: 0.8,
      circuit: null,
    });
    expect(madeOf(plan, { head: studio, modifier: null }).light.head).not.toHaveProperty("modifier");
  });
});

describe("[GR9] what holds it: weights that are known come along, what is not weighed is asked for", () => {
  it("load is head and front; bag and legs stay as they stood", () => {
    const before = { load: 9, bag: 10, legUnderLoad: true };
    const plan = oneLight({ support: before });
    const { light } = madeOf(plan, { head: studio, modifier: octa, stand: boom });
    expect(light.support).toMatchObject({
      name: "boom stand",
      load: 4,
      bag: 10,
      legUnderLoad: true,
      mass: 6,
      footRadius: 0.6,
      arm: { reach: 1.2, counterweight: 5, bearing: null },
    });
    const turned = oneLight({ support: { ...before, arm: { reach: 1, bearing: 315 } } });
    expect(madeOf(turned, { stand: boom }).light.support?.arm).toMatchObject({ reach: 1.2, bearing: 315 });
    expect(madeOf(plan, { head: studio, modifier: dish }).light.support).toMatchObject({
      load: 3.8,
      name: "stand",
    });
  });
  it("without a weight no sum is made up", () => {
    const unweighed = { ...studio, mass: null };
    const fresh = madeOf(oneLight(), { head: unweighed, modifier: octa, stand });
    expect(fresh.light.support).toBeNull();
    expect(fresh.says).toMatch(/weigh head and front/);
    const held = madeOf(oneLight({ support: { load: 2 } }), {
      head: unweighed,
      stand: { ...stand, mass: null },
    });
    expect(held.light.support).toMatchObject({ load: 2, mass: 3 });
    expect(held.says).toMatch(
      /its load stays as it was: weigh head and front; stand is not weighed: 3 kg taken/,
    );
  });
  it("a stand that does not reach is named with both heights, in the units in use", () => {
    const plan = oneLight({ support: { load: 2 } });
    expect(madeOf(plan, { stand: low }).says).toBe(
      "low stand reaches 0.90 m, the front's centre is at 2.00 m",
    );
    expect(putOn(plan, 0, { stand: low }, "feet").says).toBe(
      "low stand reaches 2′ 11½″, the front's centre is at 6′ 6¾″",
    );
    expect(madeOf(plan, { stand }).says).toBe("");
  });
});

describe("[GR10] the shelf as gear on hand for a search", () => {
  const gear = briefGear(STARTER_SHELF);
  it("every head by itself, with every front and the bare head, and a stand while there are any", () => {
    expect(gear.lights.map(({ name }) => name)).toEqual([
      "studio head 400 Ws",
      "studio head 400 Ws no. 2",
      "battery head 600 Ws",
      "small flash 60 Ws",
    ]);
    const [head] = gear.lights;
    expect(head?.full).toEqual({ wattSeconds: 400, lumensPerWatt: 35, efficiency: 1 });
    expect(head?.fronts.map(({ name, stopsLost }) => [name, stopsLost])).toContainEqual(["octa 120", 0.9]);
    expect(head?.fronts.at(-1)?.name).toBe("bare head");
    expect(gear.lights.map(({ stand: { highest } }) => highest)).toEqual([2.8, 2.8, 2.8, 0.9]);
    expect(gear.panels).toHaveLength(5);
  });
  it("a plan takes it as it is, however much is on the shelf, and an empty one", () => {
    const heads = Array.from({ length: 5 }, (_, i) => ({ ...studio, name: `head ${i}`, count: 3 }));
    const modifiers = Array.from({ length: 20 }, (_, i) => ({ ...octa, name: `octa ${i}` }));
    const many = readShelf({ ...STARTER_SHELF, heads, modifiers });
    if (!many.ok) throw new Error(JSON.stringify(many.problems));
    const plan = oneLight({}, { brief: {} });
    for (const shelf of [STARTER_SHELF, many.shelf, EMPTY_SHELF]) {
      const value = briefGear(shelf);
      const edited = applyEdit(plan, {
        kind: "set",
        label: "gear",
        fields: [{ path: ["brief", "gear"], value }],
      });
      expect(edited.ok && edited.plan.brief?.gear).toEqual(value);
    }
    expect(briefGear(many.shelf).lights).toHaveLength(8);
    expect(briefGear(many.shelf).lights[0]?.fronts).toHaveLength(12);
  });
});

describe("[GR20] kits to begin with", () => {
  it("every head, front and panel of theirs is one of the shelf, with its numbers", () => {
    const { heads, modifiers, panels } = STARTER_SHELF;
    const lights = [USUAL_LIGHT, ...KITS.flatMap(({ gear }) => gear.lights)];
    expect(lights.length).toBeGreaterThan(3);
    for (const { dial, full, fronts } of lights) {
      const head = heads.find(
        (each) => JSON.stringify({ ...each.full, efficiency: 1 }) === JSON.stringify(full),
      );
      expect(head?.dial).toEqual(dial);
      for (const { stopsLost, ...front } of fronts) {
        const on = modifiers.find(({ name }) => name === front.name);
        expect({ ...front, stopsLost }).toEqual({
          name: on?.name,
          face: on?.face,
          beam: on?.beam,
          stopsLost: on?.loss.stops,
        });
      }
    }
    for (const panel of KITS.flatMap(({ gear }) => gear.panels)) {
      const { name, width, height, reflectance } = panels.find((each) => each.name === panel.name) ?? panel;
      expect(panels.map((each) => each.name)).toContain(panel.name);
      expect(panel).toEqual({ name, width, height, reflectance });
    }
  });
});
