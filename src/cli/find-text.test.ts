import { describe, expect, it } from "vitest";
import type { FindAnswer, HoldZone, SetUp, WishMet } from "../finder/index.ts";
import { checkPlan } from "../plan/index.ts";
import { findText } from "./find-text.ts";

const checked = checkPlan({
  format: "tapemark/plan",
  version: 1,
  title: "Cellist, small room",
  room: { width: 4, depth: 5, height: 2.5 },
  lights: [
    {
      name: "octa 90",
      position: [2.9, 1.8, 1.9],
      direction: { bearing: 315, tilt: -21 },
      face: { shape: "polygon", sides: 8, width: 0.9 },
      output: { wattSeconds: 400, stopsDown: 2.3 },
      dial: { marked: "fractions" },
    },
  ],
  people: [{ name: "cellist", position: [2, 2.8] }],
  camera: { position: [2, 0.6, 1.5], focalLength: 85, fNumber: 8 },
});
if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
const { plan } = checked;

const wish = (parts: Partial<WishMet> & Pick<WishMet, "wish">): WishMet => ({
  isMet: true,
  asked: "",
  got: "",
  margin: null,
  marginWords: "",
  why: null,
  ...parts,
});
const PATTERN = wish({ wish: "pattern", asked: "Rembrandt", got: "Rembrandt" });
const RATIO = wish({
  wish: "ratioStops",
  asked: "1.2 to 1.7 stops",
  got: "1.5 stops",
  margin: 0.2,
  marginWords: "0.2 stop",
});
const TOO_FLAT: WishMet = {
  ...RATIO,
  isMet: false,
  got: "0.9 stop",
  margin: -0.3,
  marginWords: "0.3 stop",
  why: "white walls: nothing darker than this is possible here",
};
const HOLD: HoldZone = {
  person: 0,
  mark: [2, 2.8],
  asked: { pattern: "rembrandt", exposureStops: 0.33, ratioStops: 0.33, headroomStops: 0 },
  outline: [],
  circle: { x: 2, y: 2.8, radius_m: 0.114 },
  sides: [
    { side: "ahead", centimetres: 12, limit: { by: "exposure", stops: 0.33 } },
    { side: "own left", centimetres: 14, limit: { by: "pattern", pattern: "loop" } },
    { side: "behind", centimetres: 31, limit: { by: "wall", name: "far wall" } },
    { side: "own right", centimetres: 60, limit: { by: "reach" } },
  ],
  turn: { least: -9, most: 6, leastLimit: { by: "reach" }, mostLimit: { by: "reach" } },
  tip: { least: 0, most: 4.4, leastLimit: { by: "reach" }, mostLimit: { by: "reach" } },
};

function setUp(parts: Partial<SetUp>): SetUp {
  return {
    kind: "one light",
    title: "one light, from own left, 1.3 m off",
    plan,
    isMet: true,
    wishes: [RATIO, PATTERN],
    // what was read is printed by --json alone
    reading: {} as SetUp["reading"],
    hold: null,
    ...parts,
  };
}
const answer = (setUps: SetUp[], relax: FindAnswer["relax"] = null): FindAnswer => ({
  format: "tapemark/found",
  version: 1,
  isMet: setUps.some((s) => s.isMet),
  tried: 41250,
  setUps,
  relax,
});
const lines = (a: FindAnswer) => findText(plan, a).split("\n");

describe("[BR4] what was found is told by what is met, by what margin, and what is not and why", () => {
  it("one that meets the brief: its wishes, its lights with power as the head is marked, its camera", () => {
    expect(findText(plan, answer([setUp({})]))).toBe(`Cellist, small room

One set-up meets the brief.

1  one light, from own left, 1.3 m off
   met      ratio          1.5 stops (asked: 1.2 to 1.7 stops), 0.2 stop to spare
   met      pattern        Rembrandt
   octa 90 at x 2.90, y 1.80, 1.90 m up, bearing 315°, 21° down, power 1/8 + 0.7
   camera at x 2.00, y 0.60, 1.50 m up, 85 mm, f/8 + 0.0

41,250 set-ups tried by the fast way; this one is traced in full.
Not calibrated: within about one stop until a meter has confirmed a reading.
`);
  });
  it("what is missed comes first, with how much and why", () => {
    const told = lines(answer([setUp({}), setUp({ isMet: false, wishes: [PATTERN, TOO_FLAT] })]));
    const second = told.indexOf("2  one light, from own left, 1.3 m off: does not meet the brief");
    expect(told.slice(second + 1, second + 4)).toEqual([
      "   not met  ratio          0.9 stop (asked: 1.2 to 1.7 stops), misses by 0.3 stop",
      "                           white walls: nothing darker than this is possible here",
      "   met      pattern        Rembrandt",
    ]);
    expect(told[2]).toBe("One set-up meets the brief; the rest come near.");
  });
  it("nothing fits: the nearest misses, and what would help most", () => {
    const miss = setUp({ isMet: false, wishes: [TOO_FLAT] });
    const told = lines(answer([miss], { wish: "ratioStops", words: "if the ratio may be 0.9 stop" }));
    expect(told[2]).toBe(
      "Nothing meets the brief; nearest first. What would help most: if the ratio may be 0.9 stop.",
    );
    expect(told[4]).toBe("1  one light, from own left, 1.3 m off");
    expect(lines(answer([]))[2]).toBe("Nothing can be built: no light finds a place.");
  });
  it("how far the sitter may drift, and what ends it; never a word of safety", () => {
    const told = findText(plan, answer([setUp({ hold: HOLD })]));
    expect(told).toContain(
      "   cellist may drift 12 cm ahead (exposure), 14 cm own left (then loop), 31 cm behind (far wall), " +
        "60 cm own right (as far as was looked); the largest circle has 11 cm; turn −9° to +6°, chin 0° to +4°\n",
    );
    expect(told).not.toMatch(/safe/i);
  });
  it("several at once", () => {
    expect(lines(answer([setUp({}), setUp({})]))[2]).toBe("2 set-ups meet the brief.");
    expect(findText(plan, answer([setUp({}), setUp({})]))).toContain("these are traced in full");
  });
});
