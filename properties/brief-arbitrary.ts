/** Random briefs, as somebody might write them: valid, with this and that left out. */
import fc from "fast-check";
import { face, number, part, word } from "./plan-parts.ts";

/** An end may be open, and the two are in order. */
const range = (low: number, high: number) =>
  part(
    fc.oneof(
      fc.constant(null),
      fc
        .tuple(number(low, high), number(low, high), fc.constantFrom("both", "from", "to"))
        .map(([a, b, ends]) => ({
          ...(ends === "to" ? {} : { from: Math.min(a, b) }),
          ...(ends === "from" ? {} : { to: Math.max(a, b) }),
        })),
    ),
  );
const named = <T extends { name: string }>(item: fc.Arbitrary<T>, minLength: number, maxLength: number) =>
  fc.uniqueArray(item, { minLength, maxLength, selector: (thing) => thing.name });

const want = fc.record({
  pattern: part(fc.constantFrom(null, "flat", "butterfly", "loop", "rembrandt", "split", "rim", "under")),
  litSide: part(fc.constantFrom(null, "left", "right")),
  side: part(fc.constantFrom(null, "broad", "short")),
  ratioStops: range(0, 10),
  shadowEdgeMillimetres: range(0, 60),
  backgroundStops: range(-12, 8),
  fNumber: range(0.7, 64),
  headroomStops: part(number(-3, 8)),
  catchlight: part(
    fc.oneof(fc.constant(null), fc.record({ clock: number(0, 12), within: part(number(0.1, 6)) })),
  ),
  azimuth: range(-180, 180),
  elevation: range(-90, 90),
  crop: part(fc.constantFrom(null, "head", "head and shoulders", "half", "three-quarter", "full")),
});
const front = fc.record({
  name: word,
  face,
  beam: part(fc.record({ exponent: number(1, 60), edgeDrop: part(number(0, 10)) })),
  stopsLost: part(number(0, 10)),
});
const light = fc.record({
  name: word,
  full: fc.oneof(
    fc.record({ wattSeconds: number(0.1, 3000), efficiency: part(number(0, 1)) }),
    fc.record({ lumenSeconds: number(0.001, 1e6) }),
  ),
  kelvin: part(number(1500, 20000)),
  fronts: named(front, 1, 3),
  stand: part(
    fc.record({ lowest: part(number(0, 1)), highest: part(number(1, 10)), boom: part(number(0, 4)) }),
  ),
});
const board = fc.record({
  name: word,
  width: number(0.001, 4),
  height: number(0.001, 4),
  reflectance: part(number(0, 1)),
});

/** About the first, whoever is there: a person or a spread further on depends on the rest of the plan. */
export const brief = fc.record({
  person: part(fc.constant(0)),
  want: part(want),
  lenses: part(fc.array(number(1, 2000), { maxLength: 4 })),
  cameraDistance: range(0.3, 50),
  gear: part(
    fc.oneof(
      fc.constant(null),
      fc.record({ lights: part(named(light, 0, 3)), panels: part(named(board, 0, 3)) }),
    ),
  ),
  clear: part(fc.record({ ceiling: part(number(0, 2)), people: part(number(0, 3)) })),
  hold: part(fc.record({ exposureStops: part(number(0.02, 3)), headroomStops: part(number(-3, 3)) })),
});
