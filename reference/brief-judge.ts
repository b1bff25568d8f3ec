/** Whether a set-up answers a brief, told from its own reading and a tape: nothing of the search is used. */
import type { Light, Plan } from "../src/plan/index.ts";
import type { TryReading } from "../src/reading/index.ts";
import { stagePerson } from "../src/staging/index.ts";
import { isInFrame, rimOf, SHARES, wallAir } from "./random-set-ups.ts";
import { cheekFNumber, clocksOfStrongest } from "./recovered-briefs.ts";

/** Numbers in a plan are rounded to the micrometre, those in words not at all. */
const ROUNDING = 1e-4;
type Range = { from: number | null; to: number | null } | null;

function isWithin(value: number | null, range: Range): boolean {
  if (range === null) return true;
  if (value === null) return false;
  return (
    (range.from === null || value >= range.from - ROUNDING) &&
    (range.to === null || value <= range.to + ROUNDING)
  );
}

/** What of the look is missed, by the names of the brief's fields. */
export function lookMissed(plan: Plan, asked: Plan, reading: TryReading): string[] {
  const want = asked.brief?.want;
  if (want === undefined) throw new Error("no brief");
  const missed: string[] = [];
  const hold = (field: string, isMet: boolean) => void (isMet || missed.push(field));
  hold("pattern", want.pattern === null || reading.pattern === want.pattern);
  hold("litSide", want.litSide === null || reading.litSide === want.litSide);
  hold("ratioStops", isWithin(reading.ratioStops, want.ratioStops));
  hold("fNumber", isWithin(cheekFNumber(reading.litCheek, plan.camera.iso), want.fNumber));
  hold("shadowEdgeMillimetres", isWithin(reading.shadowEdgeMillimetres, want.shadowEdgeMillimetres));
  const { catchlight } = want;
  if (missed.length === 0 && catchlight !== null)
    hold(
      "catchlight",
      clocksOfStrongest(plan, reading).some(
        (clock) => hoursApart(clock, catchlight.clock) <= catchlight.within + ROUNDING,
      ),
    );
  return missed;
}

function hoursApart(a: number, b: number): number {
  const apart = Math.abs(a - b) % 12;
  return Math.min(apart, 12 - apart);
}

/** From the ears to the crown, about: ANSUR II means lie at 13 cm. */
const CROWN_M = 0.13;

/** What cannot be built of it with the brief's gear, in its room. */
export function cannotBeBuilt(plan: Plan, asked: Plan): string[] {
  const out: string[] = [];
  const gear = asked.brief?.gear?.lights ?? [];
  if (JSON.stringify(plan.room) !== JSON.stringify(asked.room)) out.push("another room");
  plan.lights
    .filter((light) => light.on)
    .forEach((light) => {
      const head = gear.find((g) =>
        g.fronts.some((f) => JSON.stringify(f.face) === JSON.stringify(light.face)),
      );
      if (head === undefined) out.push(`${light.name}: a front that is not there`);
      else if (!isOnDial(light, head)) out.push(`${light.name}: power beyond the dial`);
      else if (
        light.position[2] < head.stand.lowest - ROUNDING ||
        light.position[2] > head.stand.highest + ROUNDING
      )
        out.push(`${light.name}: beyond the stand`);
      out.push(...inTheWay(plan, light, asked));
    });
  if (plan.lights.filter((light) => light.on).length > gear.length) out.push("more lights than there are");
  return out;
}

type GearLight = NonNullable<NonNullable<Plan["brief"]>["gear"]>["lights"][number];

function isOnDial(light: Light, head: GearLight): boolean {
  if (!("wattSeconds" in light.output) || !("wattSeconds" in head.full)) return false;
  const { stopsDown, wattSeconds } = light.output;
  const steps = stopsDown / head.dial.step;
  const isStep = Math.abs(steps - Math.round(steps)) < 0.01;
  return wattSeconds === head.full.wattSeconds && isStep && stopsDown <= head.dial.range + ROUNDING;
}

function inTheWay(plan: Plan, light: Light, asked: Plan): string[] {
  const clear = asked.brief?.clear;
  const [person] = plan.people;
  if (clear === undefined || person === undefined) return [];
  const { shape } = stagePerson(person, plan);
  const out: string[] = [];
  const rim = rimOf(light);
  if (SHARES.some((share) => rimOf(light, share).some(([x, y, z]) => isInFrame(plan, x, y, z, 1))))
    out.push(`${light.name}: in the frame`);
  if (rim.some(([x, y, z]) => wallAir(plan, x, y, z) < Math.min(clear.walls, clear.ceiling) - ROUNDING))
    out.push(`${light.name}: at a wall`);
  const crown_m = shape.earHeight + CROWN_M;
  const isNear = rim.some(([x, y, z]) => {
    const aside = Math.hypot(x - person.position[0], y - person.position[1]);
    return Math.hypot(aside, Math.max(0, z - crown_m)) < clear.people - ROUNDING;
  });
  if (isNear) out.push(`${light.name}: at the person`);
  return out;
}
