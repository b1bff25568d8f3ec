import { expect, it } from "vitest";
import {
  askedWords,
  circleFromMark,
  type HoldZone,
  holdRows,
  limitWord,
  limitWords,
  stopsSaid,
} from "./index.ts";

const reach = { by: "reach" } as const;
const zone: HoldZone = {
  person: 0,
  mark: [3, 4],
  asked: { pattern: "rembrandt", exposureStops: 1 / 3, ratioStops: 1 / 3, headroomStops: 0 },
  outline: [],
  circle: { x: 3.1, y: 4.2, radius_m: 0.2 },
  sides: [
    { side: "ahead", centimetres: 31, limit: { by: "exposure", stops: 1 / 3 } },
    { side: "own left", centimetres: 20, limit: reach },
    { side: "behind", centimetres: 32, limit: reach },
    { side: "own right", centimetres: 21, limit: reach },
  ],
  turn: { least: -5.5, leastLimit: { by: "pattern", pattern: "loop" }, most: 6, mostLimit: reach },
  tip: { least: -16, leastLimit: reach, most: 12.5, mostLimit: reach },
};

it("[HZ13] a limit says which way it goes, in full and in a word or two", () => {
  expect(limitWords({ by: "pattern", pattern: "rembrandt" })).toBe("the pattern turns to Rembrandt");
  expect(limitWords({ by: "pattern", pattern: "dark" })).toBe("no light on the face");
  expect(limitWords({ by: "exposure", stops: 1 / 3 })).toBe("a third of a stop brighter");
  expect(limitWords({ by: "exposure", stops: -0.5 })).toBe("half a stop darker");
  expect(limitWords({ by: "ratio", stops: -0.2 })).toBe("ratio down 0.2 stop");
  expect(limitWords({ by: "headroom", stops: 0 })).toBe("skin begins to clip");
  expect(limitWords({ by: "headroom", stops: 0.5 })).toBe("half a stop of headroom left");
  expect(limitWords({ by: "wall", name: "the left wall" })).toBe("the left wall");
  expect([limitWord({ by: "exposure", stops: 1 }), limitWord({ by: "ratio", stops: 1 })]).toEqual([
    "brighter",
    "ratio up",
  ]);
});

it("[HZ13] amounts of stops have the names that the trade has for them", () => {
  expect([1 / 3, 0.5, 2 / 3, 0.1, 1, 1.5].map(stopsSaid)).toEqual([
    "a third of a stop",
    "half a stop",
    "two thirds of a stop",
    "0.1 stop",
    "1.0 stop",
    "1.5 stops",
  ]);
});

it("[HZ13] what is asked is said in one line; what is not asked is left out", () => {
  expect(askedWords(zone.asked)).toBe(
    "Rembrandt, exposure and ratio within a third of a stop, no skin clipped",
  );
  expect(askedWords({ pattern: "split", exposureStops: 0.5, ratioStops: null, headroomStops: null })).toBe(
    "split, exposure within half a stop",
  );
  expect(askedWords({ pattern: "loop", exposureStops: 0.5, ratioStops: 1, headroomStops: 0.5 })).toBe(
    "loop, exposure within half a stop, ratio within 1.0 stop, half a stop of headroom left",
  );
});

it("[HZ13] rows go floor first, then head and chin, degrees without a sign; never a word of safety", () => {
  const rows = holdRows(zone);
  expect(rows.map(({ way, metres, degrees }) => `${way} ${metres ?? degrees}`)).toEqual([
    "ahead 0.31",
    "own left 0.2",
    "behind 0.32",
    "own right 0.21",
    "head to own right 5.5",
    "head to own left 6",
    "chin down 16",
    "chin up 12.5",
  ]);
  expect(JSON.stringify(rows) + askedWords(zone.asked)).not.toMatch(/safe/i);
});

it("[HZ13] the circle's middle is told in the body's own axes", () => {
  // facing 180: ahead is toward the camera side, own left is the right of the room
  expect(circleFromMark(zone, 180)).toEqual({
    ahead_m: expect.closeTo(-0.2, 9),
    left_m: expect.closeTo(0.1, 9),
  });
  expect(circleFromMark(zone, 90)).toEqual({
    ahead_m: expect.closeTo(0.1, 9),
    left_m: expect.closeTo(0.2, 9),
  });
});
