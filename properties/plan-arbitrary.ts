/** Random plans and edits, valid ones and broken ones, for properties. */
import fc from "fast-check";
import type { Edit, FieldPath } from "../src/plan/index.ts";
import { brief } from "./brief-arbitrary.ts";
import { face, number, part, word } from "./plan-parts.ts";

const ROOM = { width: 7, depth: 9, height: 3.4 };
const MEASURED_ROOM = {
  ...ROOM,
  sprinklers: { below: 0.1 },
  calibration: { bounceStops: 0.4, uncertaintyStops: 0.2 },
};
const inRoom = fc.tuple(number(0, ROOM.width), number(0, ROOM.depth), number(0, ROOM.height));
const onFloor = fc.tuple(number(0, ROOM.width), number(0, ROOM.depth));
const angle = number(-360, 360);
const share = number(0, 1);
const colour = fc.tuple(share, share, share);
const reflectance = fc.oneof(share, colour);
/** `at` lies outside the room, so that it is never the position itself. */
const direction = fc.oneof(
  fc.record({ bearing: angle, tilt: number(-90, 90) }),
  fc.record({ at: fc.tuple(number(8, 20), angle, angle) }),
);
const output = fc.oneof(
  fc.record({ lumenSeconds: number(0, 1e6) }),
  fc.record({ wattSeconds: number(0, 3000), stopsDown: part(number(0, 10)) }),
  fc.record({ meter: fc.record({ fNumber: number(0.5, 256), distance: number(0.01, 100) }) }),
  fc.record({ guideNumber: number(0.01, 100), iso: part(number(1, 1e5)) }),
);
const calibration = part(
  fc.oneof(
    fc.constant(null),
    fc.record({
      stops: number(-3, 3),
      uncertaintyStops: number(0, 2),
      measuredOn: part(word),
      from: part(fc.constantFrom("readings", "gear book")),
    }),
  ),
);
const support = part(
  fc.oneof(
    fc.constant(null),
    fc.record({
      load: number(0, 30),
      legs: part(fc.integer({ min: 3, max: 6 })),
      bag: part(number(0, 20)),
      arm: part(fc.record({ reach: number(0, 3), counterweight: part(number(0, 20)) })),
    }),
  ),
);
const head = part(
  fc.oneof(
    fc.constant(null),
    fc.record({
      name: part(word),
      modifier: part(word),
      recycle: part(number(0.01, 10)),
      duration: part(fc.record({ seconds: number(1e-4, 0.01) })),
      lampWatts: part(number(0, 500)),
    }),
  ),
);
const light = fc.record({
  name: word,
  on: fc.boolean(),
  position: inRoom,
  direction,
  roll: part(angle),
  face,
  beam: part(fc.record({ exponent: number(1, 60), edgeDrop: part(number(0, 10)) })),
  output,
  gel: part(fc.record({ rgb: colour })),
  dial: part(
    fc.record({
      marked: part(fc.constantFrom("stops", "fractions", "wattSeconds")),
      range: part(number(0, 14)),
      step: part(number(0.01, 1)),
    }),
  ),
  head,
  support,
  calibration,
  pinned: part(fc.boolean()),
});
const panel = fc.record({
  name: word,
  position: inRoom,
  direction,
  width: part(number(0.001, 4)),
  reflectance: fc.oneof(number(0, 0.5), fc.tuple(number(0, 0.5), number(0, 0.5), number(0, 0.5))),
  transmittance: part(number(0, 0.5)),
  support,
  pinned: part(fc.boolean()),
});
/** A class of tone, or a measured patch light enough and grey enough to be within any screen's colours. */
const skinForm = fc.oneof(
  fc.record({ tone: fc.constantFrom("very light", "light", "intermediate", "tan", "brown", "dark") }),
  fc.record({ lab: fc.tuple(number(40, 75), number(5, 15), number(10, 20)) }),
);
const person = fc.record({
  name: word,
  position: onFloor,
  stature: part(number(0.5, 2.6)),
  pose: part(fc.constantFrom("standing", "seated")),
  head: part(
    fc.record({ turn: part(number(-180, 180)), follows: part(fc.constantFrom("nothing", "camera")) }),
  ),
  headSize: part(number(1, 99)),
  hair: part(fc.record({ length: part(fc.constantFrom("none", "short", "shoulder")) })),
  glasses: part(
    fc.oneof(fc.constant(null), fc.record({ tilt: part(number(-10, 30)), coated: part(fc.boolean()) })),
  ),
  skin: part(fc.record({ reflectance: fc.oneof(reflectance, skinForm), shine: part(number(0, 2)) })),
  pinned: part(fc.boolean()),
});
const mark = fc.record({ name: word, position: onFloor, pinned: part(fc.boolean()) });
const meter = fc.record({
  name: word,
  position: inRoom,
  direction: part(direction),
  receptor: part(fc.constantFrom("flat", "dome", "spot")),
});
/** Of all lights or of one that stands in the reading itself, so that it fits any plan. */
const reading = fc
  .record({
    name: word,
    position: inRoom,
    direction: part(direction),
    receptor: part(fc.constantFrom("flat", "dome", "spot")),
    fNumber: number(0.5, 256),
    iso: part(number(1, 1e5)),
    note: part(word),
    stood: part(fc.uniqueArray(light, { maxLength: 3, selector: (thing) => thing.name })),
  })
  .map(({ stood, ...made }) =>
    stood === undefined || stood.length === 0
      ? made
      : {
          ...made,
          light: stood[0].name,
          stood: stood.map(({ calibration: _c, dial: _d, head: _h, support: _s, pinned: _p, ...own }) => own),
        },
  );
const backdrop = fc.record({
  kind: fc.constantFrom("paper", "cove"),
  position: onFloor,
  top: part(number(0.5, ROOM.height)),
  reflectance: part(reflectance),
});
const listOf = <T extends { name: string }>(item: fc.Arbitrary<T>, maxLength: number) =>
  part(fc.uniqueArray(item, { maxLength, selector: (thing) => thing.name }));

/** A plan document as somebody might write it: valid, with this and that left out. */
export const planDocument: fc.Arbitrary<Record<string, unknown>> = fc
  .record({
    format: fc.constant("tapemark/plan"),
    version: fc.constant(1),
    title: part(word),
    room: part(fc.constantFrom(null, ROOM, MEASURED_ROOM)),
    ambient: part(fc.record({ lux: number(0, 1e5) })),
    lights: listOf(light, 4),
    backdrop: part(fc.oneof(fc.constant(null), backdrop)),
    panels: listOf(panel, 3),
    people: listOf(person, 3),
    camera: part(
      fc.record({ position: part(inRoom), direction: part(direction), shutter: part(number(1e-5, 10)) }),
    ),
    meters: listOf(meter, 3),
    marks: listOf(mark, 3),
    readings: listOf(reading, 3),
    print: part(
      fc.oneof(
        fc.constant(null),
        fc.record({
          width: number(0.01, 20),
          height: number(0.01, 20),
          use: part(word),
          viewingDistance: part(number(0.05, 500)),
          cropWidth: part(number(0.01, 1)),
        }),
      ),
    ),
    circuits: listOf(fc.record({ name: word, amps: number(1, 200), volts: part(number(50, 500)) }), 2),
    shooting: part(fc.oneof(fc.constant(null), fc.record({ everySeconds: number(0.05, 600) }))),
    brief: part(fc.oneof(fc.constant(null), brief)),
  })
  // what is left out is not there at all, as in a file
  .map((document) => JSON.parse(JSON.stringify(document)));

const list = fc.constantFrom(
  "lights" as const,
  "panels" as const,
  "people" as const,
  "meters" as const,
  "marks" as const,
  "readings" as const,
);
const index = fc.integer({ min: 0, max: 4 });
const path: fc.Arbitrary<FieldPath> = fc.oneof(
  fc.tuple(
    list,
    index,
    fc.constantFrom(
      "position",
      "direction",
      "name",
      "on",
      "head",
      "roll",
      "receptor",
      "pinned",
      "dial",
      "calibration",
    ),
  ),
  fc.tuple(
    fc.constantFrom("camera", "ambient", "room"),
    fc.constantFrom("iso", "lux", "height", "position", "beem"),
  ),
  fc.constantFrom<FieldPath>(["title"], ["room"], ["backdrop"], ["lights"], ["brief"]),
  fc.tuple(fc.constant("brief"), fc.constantFrom("want", "gear", "lenses", "person", "wants")),
);
/** Values of which some fit somewhere. */
const value = fc.oneof(
  inRoom,
  onFloor,
  direction,
  word,
  number(0, 300),
  fc.boolean(),
  fc.constant(null),
  fc.jsonValue(),
);

/** Edits of every kind; many do not fit the plan that they meet. */
export const anyEdit: fc.Arbitrary<Edit> = fc.oneof(
  fc.record({
    kind: fc.constant("set" as const),
    label: word,
    fields: fc.array(fc.record({ path, value }), { minLength: 1, maxLength: 3 }),
  }),
  fc
    .oneof(
      fc.record({ list: fc.constant("lights" as const), item: light }),
      fc.record({ list: fc.constant("meters" as const), item: meter }),
      fc.record({ list: fc.constant("readings" as const), item: reading }),
      fc.record({ list: fc.constant("people" as const), item: fc.jsonValue() }),
    )
    .map(({ list, item }) => ({ kind: "add" as const, label: "added", list, item })),
  fc.record({ kind: fc.constant("remove" as const), label: fc.constant("taken away"), list, index }),
);
