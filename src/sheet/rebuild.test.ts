/** What a sheet prints is enough: a plan typed in again from it alone reads the same. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { amount } from "../../properties/amount.ts";
import { checkPlan, directionOf, type Plan } from "../plan/index.ts";
import { Memory, readPlan } from "../reading/index.ts";
import { placementSheet } from "./placement.ts";
import { PLANS, planOf, readingFor } from "./testing/plans.ts";
import { retyped } from "./testing/retype.ts";

/** A tenth of a stop is the finest that is told, set or read. */
const WITHIN_STOPS = 0.1;

function example(name: string): Plan {
  const checked = checkPlan(JSON.parse(readFileSync(`examples/${name}`, "utf8")));
  if (!checked.ok) throw new Error(`${name}: ${checked.problems[0].what}`);
  return checked.plan;
}

/** Examples that are plans with a light, and set-ups made up to have what examples lack. */
const SET_UPS: Readonly<Record<string, Plan>> = {
  ...Object.fromEntries(
    readdirSync("examples")
      .filter((name) => /^(cellist|group|manual-|strip).*\.json$/.test(name))
      .map((name) => [name, example(name)]),
  ),
  ...Object.fromEntries(
    Object.entries(PLANS).filter(([name]) => !["nobody yet", "taped marks"].includes(name)),
  ),
};
/** What everyday runs read: a file's beam, feet, a head that is turned and tipped, no walls. The long run reads all. */
const FIRST = ["cellist.json", "strip-by-file.json", "small low room"];
const isFirst = (name: string) => FIRST.includes(name);
const CASES = Object.keys(SET_UPS)
  .toSorted((a, b) => Number(isFirst(b)) - Number(isFirst(a)))
  .map((name, i) => ({
    name,
    plan: SET_UPS[name],
    // every other one in feet on letter paper
    units: i % 2 === 0 ? ("feet" as const) : ("metric" as const),
    paper: i % 2 === 0 ? ("letter" as const) : ("a4" as const),
  }));

/** A word that is longer than a line is broken anywhere: no one can tell that from a space. */
const bare = (name: string) => name.replaceAll(" ", "");

describe("[RB1] a plan typed back in from its sheet alone reads the same within 0.1 stop, with the same pattern", () => {
  it("there are at least ten, from one light to eight people", () => {
    expect(CASES.length).toBeGreaterThanOrEqual(10);
    expect(Math.max(...CASES.map(({ plan }) => plan.people.length))).toBe(8);
    expect(Math.min(...CASES.map(({ plan }) => plan.lights.length))).toBe(1);
  });

  it.each(CASES.slice(0, amount(10 * FIRST.length)))("$name, $paper, $units", ({ plan, paper, units }) => {
    const pages = placementSheet(plan, readingFor(plan), { paper, units });
    const again = planOf(retyped(pages, units, plan.photometry));
    const [was, is] = [plan, again].map((each) => readPlan(each, "coarse", new Memory()));
    const same = (a: number | null, b: number | null, what: string) => {
      if (a === null || b === null) expect(b, what).toBe(a);
      else expect(Math.abs(b - a), what).toBeLessThanOrEqual(WITHIN_STOPS);
    };
    const stops = (a: number) => (a > 0 ? Math.log2(a) : null);
    expect(is.meters.map(({ name }) => bare(name))).toEqual(was.meters.map(({ name }) => bare(name)));
    was.meters.forEach((meter, i) => {
      same(stops(meter.luxSeconds), stops(is.meters[i].luxSeconds), meter.name);
      for (const [light, share] of Object.entries(meter.byLight)) {
        const [, other] =
          Object.entries(is.meters[i].byLight).find(([name]) => bare(name) === bare(light)) ?? [];
        if (other === undefined) throw new Error(`${light} is not on the sheet`);
        same(
          stops(share.direct + share.bounced),
          stops(other.direct + other.bounced),
          `${light} alone at ${meter.name}`,
        );
      }
    });
    expect(is.people.map(({ face }) => face.pattern)).toEqual(was.people.map(({ face }) => face.pattern));
    was.people.forEach(({ name, face }, i) => {
      const other = is.people[i].face;
      same(stops(face.litCheek), stops(other.litCheek), `lit cheek of ${name}`);
      same(face.ratioStops, other.ratioStops, `ratio of ${name}`);
    });
    // a share of pixels, which goes by the picture's own grain where faces are small
    if (plan.people.length === 1) same(was.camera.headroomStops, is.camera.headroomStops, "headroom");
    same(was.camera.backgroundStops, is.camera.backgroundStops, "background");
  });
});

describe("[RB2] every number typed back in is the plan's: places within 5 mm, angles within a quarter of a degree", () => {
  const UNITS = ["metric", "feet"] as const;
  const PAPERS = ["a4", "letter"] as const;
  const MM_5 = 0.005 + 1e-9;
  const QUARTER = 0.25 + 1e-9;
  const near = (a: readonly number[], b: readonly number[], within: number, what: string) =>
    a.forEach((value, k) => {
      expect(Math.abs(value - b[k]), `${what} [${k}]`).toBeLessThanOrEqual(within);
    });
  const turned = (a: number, b: number) => Math.abs(((a - b + 540) % 360) - 180);

  it.each(CASES.flatMap((c) => UNITS.flatMap((units) => PAPERS.map((paper) => ({ ...c, units, paper })))))(
    "$name, $paper, $units",
    ({ plan, units, paper }) => {
      const pages = placementSheet(plan, readingFor(plan), { paper, units });
      const again = planOf(retyped(pages, units, plan.photometry));
      // open space has no zero of its own: the first mark is
      const zero = plan.room === null ? [...plan.people[0].position, 0] : [0, 0, 0];
      const placed = (position: readonly number[]) => position.map((value, k) => value - zero[k]);
      const aims = (a: Plan["camera"], b: Plan["camera"], what: string) => {
        near(placed(a.position), b.position, MM_5, what);
        const [was, is] = [directionOf(a.direction, a.position), directionOf(b.direction, b.position)];
        expect(turned(was.bearing_deg, is.bearing_deg), `bearing of ${what}`).toBeLessThanOrEqual(QUARTER);
        expect(Math.abs(was.tilt_deg - is.tilt_deg), `tilt of ${what}`).toBeLessThanOrEqual(QUARTER);
        expect(turned(a.roll, b.roll), `roll of ${what}`).toBeLessThanOrEqual(QUARTER);
      };
      const named = ({ lights, panels, people, meters, title }: Plan) =>
        [...lights, ...panels, ...people, ...meters, { name: title }].map(({ name }) => bare(name));
      expect(named(again)).toEqual(named(plan));
      expect(again.lights.map(({ on, kelvin }) => [on, kelvin])).toEqual(
        plan.lights.map(({ on, kelvin }) => [on, kelvin]),
      );
      plan.lights.forEach((light, i) => {
        aims({ ...plan.camera, ...light }, { ...again.camera, ...again.lights[i] }, light.name);
        expect(again.lights[i].face.shape).toBe(light.face.shape);
        expect(again.lights[i].beam.edgeDrop).toBeCloseTo(light.beam.edgeDrop, 2);
        expect(again.lights[i].beam.exponent).toBeCloseTo(light.beam.exponent, 1);
      });
      plan.panels.forEach((panel, i) => {
        aims({ ...plan.camera, ...panel }, { ...again.camera, ...again.panels[i] }, panel.name);
        near([panel.width, panel.height], [again.panels[i].width, again.panels[i].height], MM_5, panel.name);
      });
      aims(plan.camera, again.camera, "camera");
      plan.people.forEach((person, i) => {
        const other = again.people[i];
        near(placed(person.position), other.position, MM_5, person.name);
        near([person.stature, person.seatHeight], [other.stature, other.seatHeight], MM_5, person.name);
        const { turn, tip, tilt } = person.head;
        near([turn, tip, tilt], [other.head.turn, other.head.tip, other.head.tilt], QUARTER, person.name);
      });
      plan.meters.forEach((meter, i) => {
        near(placed(meter.position), again.meters[i].position, MM_5, meter.name);
        expect(again.meters[i].receptor).toBe(meter.receptor);
      });
      if (plan.backdrop !== null && again.backdrop !== null) {
        const { width, top, sweepRadius, floorLength, position } = plan.backdrop;
        const other = again.backdrop;
        near(
          [width, top, sweepRadius, floorLength, ...position],
          [other.width, other.top, other.sweepRadius, other.floorLength, ...other.position],
          MM_5,
          "backdrop",
        );
      }
      expect([again.camera.iso, again.camera.focalLength]).toEqual([
        plan.camera.iso,
        plan.camera.focalLength,
      ]);
      expect(Math.abs(2 * Math.log2(again.camera.fNumber / plan.camera.fNumber))).toBeLessThan(0.051);
    },
  );

  it("what is not on the sheet is not typed in: without its last paragraph there is no plan", () => {
    const plan = SET_UPS["cellist.json"];
    const pages = placementSheet(plan, readingFor(plan), { paper: "a4", units: "metric" });
    const cut = pages.map((page) => page.replace("what else is in the plan", "left out"));
    expect(() => planOf(retyped(cut, "metric", undefined))).toThrow(/give a length/);
  });
});
