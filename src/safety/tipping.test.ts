import { describe, expect, it } from "vitest";
import { amount } from "../../properties/amount.ts";
import { Pcg32 } from "../math/index.ts";
import type { Support } from "../plan/index.ts";
import { GRAVITY } from "../units/index.ts";
import { WORKED } from "./testing/supports.ts";
import { bagToLevel, counterweightToBalance, momentsOf, sidePush } from "./tipping.ts";

type Weight = readonly [kg: number, at_m: number];

const PIECES = 50;

/** All weights along the arm's line, the arm itself cut up. */
function weightsOf({ arm, bag, load, mass }: Support): Weight[] {
  const standing: Weight[] = [[mass + bag, 0]];
  if (arm === null) return [...standing, [load, 0]];
  const whole = arm.reach + arm.counterReach;
  const cut = Array.from(
    { length: PIECES },
    (_, i): Weight => [arm.mass / PIECES, ((i + 0.5) / PIECES) * whole - arm.counterReach],
  );
  return [...standing, ...cut, [load, arm.reach], [arm.counterweight, -arm.counterReach]];
}

/** How far inside each edge of the polygon of feet the weight lies, in N·m, with the arm along `way_rad` from a leg; each
 * edge by its outward normal. Below 0 it tips over that edge. */
function byEdges(support: Support, way_rad: number): { normal_rad: number; rest_Nm: number }[] {
  const { footRadius, legs } = support;
  const [kg, over] = weightsOf(support).reduce(([m, mx], [each, at]) => [m + each, mx + each * at], [0, 0]);
  return Array.from({ length: legs }, (_, k) => {
    const normal_rad = ((2 * k + 1) * Math.PI) / legs - way_rad;
    const edge = footRadius * Math.cos(Math.PI / legs);
    return { normal_rad, rest_Nm: GRAVITY * (kg * edge - over * Math.cos(normal_rad)) };
  });
}

const rng = new Pcg32(14, 9);
const between = (from: number, to: number) => from + (to - from) * rng.next();

function randomSupport(): Support {
  return {
    ...WORKED,
    legs: 3 + Math.floor(between(0, 4)),
    footRadius: between(0.2, 0.9),
    mass: between(1, 12),
    bag: between(0, 1) < 0.5 ? 0 : between(1, 20),
    load: between(0.2, 12),
    legUnderLoad: between(0, 1) < 0.5,
    arm:
      between(0, 1) < 0.2
        ? null
        : {
            reach: between(0.1, 2.5),
            mass: between(0, 4),
            counterReach: between(0.2, 1.2),
            counterweight: between(0, 1) < 0.3 ? 0 : between(0.5, 15),
            bearing: null,
          },
  };
}

const SUPPORTS = Array.from({ length: amount(400) }, randomSupport);
const TURNS = 360;
const STEP = (2 * Math.PI) / TURNS;

describe("[SF2] statics over the polygon of the feet, seed 14", () => {
  it("it tips towards the load where some edge says so: the leg under it, else the worst way to stand", () => {
    let [tipped, stood] = [0, 0];
    for (const support of SUPPORTS) {
      const ways = support.legUnderLoad ? [0] : Array.from({ length: TURNS }, (_, i) => i * STEP);
      // only edges on the load's side: what the counterweight does is the other sum
      const least = Math.min(
        ...ways.flatMap((way) =>
          byEdges(support, way).flatMap(({ normal_rad, rest_Nm }) =>
            Math.cos(normal_rad) > 0 ? [rest_Nm / (support.legUnderLoad ? Math.cos(normal_rad) : 1)] : [],
          ),
        ),
      );
      const { holding_Nm, turning_Nm } = momentsOf(support, "load");
      const scale = holding_Nm + turning_Nm;
      const over = weightsOf(support).reduce((sum, [kg, at]) => sum + kg * at, 0);
      // where the weight's centre lies behind the column, the edges beside the arm are nearer than the one ahead
      if (support.legUnderLoad || over >= 0)
        expect(Math.abs(holding_Nm - turning_Nm - least) / scale).toBeLessThan(1e-3);
      if (holding_Nm < turning_Nm) tipped++;
      else stood++;
    }
    expect(Math.min(tipped, stood)).toBeGreaterThan(3);
  });

  it("the side push is the least over every edge and every way to stand", () => {
    for (const support of SUPPORTS) {
      const ways = support.legUnderLoad ? [0] : Array.from({ length: TURNS }, (_, i) => i * STEP);
      const least = Math.min(...ways.flatMap((way) => byEdges(support, way).map(({ rest_Nm }) => rest_Nm)));
      const push = sidePush(support, 2) * 2;
      const over = weightsOf(support).reduce((sum, [kg, at]) => sum + kg * at, 0);
      // behind the column an even number of legs has a leg there, of which the sums make nothing
      if (support.legUnderLoad && over < 0 && support.legs % 2 === 0)
        expect(push).toBeLessThanOrEqual(Math.max(0, least) + 1e-6);
      else expect(push).toBeCloseTo(Math.max(0, least), 1);
    }
  });
});

describe("[SF3] an arm's own weight", () => {
  it("an arm of 4 kg with 1 m and 0.4 m turns the bare column as its pieces do", () => {
    const arm = { reach: 1, mass: 4, counterReach: 0.4, counterweight: 0, bearing: null };
    const bare: Support = { ...WORKED, mass: 0, load: 0, arm };
    const { holding_Nm, turning_Nm } = momentsOf(bare, "load");
    // 4 kg, 0.3 m out, about 0.275 m
    expect(turning_Nm - holding_Nm).toBeCloseTo(4 * GRAVITY * 0.025, 9);
    const pieces = weightsOf(bare).reduce((sum, [kg, at]) => sum + kg * GRAVITY * (at - 0.275), 0);
    expect(turning_Nm - holding_Nm).toBeCloseTo(pieces, 9);
  });
});

describe("[SF5] the least bag", () => {
  it("with it the worse of both ways is level; with a kilo less it turns over", () => {
    let asked = 0;
    for (const support of SUPPORTS) {
      const least = bagToLevel(support);
      const spare = (bag: number) =>
        Math.min(
          ...(["load", "counterweight"] as const).map((way) => {
            const { holding_Nm, turning_Nm } = momentsOf(
              { ...support, bag },
              way,
              way === "load" ? {} : { load: true },
            );
            return holding_Nm - turning_Nm;
          }),
        );
      if (least === 0) expect(spare(0)).toBeGreaterThanOrEqual(0);
      else {
        asked++;
        expect(spare(least)).toBeCloseTo(0, 6);
        expect(spare(least - 1)).toBeLessThan(-1);
      }
    }
    expect(asked).toBeGreaterThan(5);
  });
  it("the worked stand: level with load on at 0, with load off at 4.5 (0.6 − 0.275) / 0.275 − 4 kg", () => {
    expect(bagToLevel(WORKED)).toBeCloseTo((4.5 * 0.325) / 0.275 - 4, 9);
  });
});

describe("[SF6] the counterweight that balances", () => {
  it("no moment is left about the column", () => {
    for (const support of SUPPORTS) {
      const counterweight = counterweightToBalance(support);
      if (support.arm === null || counterweight === null || counterweight === 0) continue;
      const balanced = { ...support, arm: { ...support.arm, counterweight } };
      const left = weightsOf(balanced).reduce((sum, [kg, at]) => sum + kg * at, 0);
      expect(left).toBeCloseTo(0, 9);
    }
  });
  it("without an arm behind there is none", () => {
    expect(counterweightToBalance({ ...WORKED, arm: null })).toBeNull();
    expect(
      counterweightToBalance({ ...WORKED, arm: { ...WORKED.arm, counterReach: 0 } as Support["arm"] }),
    ).toBeNull();
  });
});

describe("[SF2] ends", () => {
  it("a load between the feet turns nothing over", () => {
    const near: Support = {
      ...WORKED,
      arm: { reach: 0.2, mass: 0, counterReach: 0, counterweight: 0, bearing: null },
    };
    expect(momentsOf(near, "load").turning_Nm).toBe(0);
  });
  it("what tips by itself needs no push", () => {
    const bare: Support = {
      ...WORKED,
      arm: { reach: 1.2, mass: 0, counterReach: 0, counterweight: 0, bearing: null },
    };
    expect(sidePush(bare, 2)).toBe(0);
  });
});
