/** Facts that people who light portraits go by, on one plan: a large octagonal front, 1.5 m across flats, a perfect
 * diffuser, aimed straight down; the sitter outside its rim, the face as far behind the rim as the rim hangs above it,
 * turned to the front and to the camera. Open space, for these are facts about the source: in a room of ordinary colours
 * the floor that it lights sends light up from before the sitter, which draws the vector down by some 6 degrees. */
import { buildPerson } from "../src/figure/index.ts";
import { readPlan } from "../src/reading/index.ts";
import type { Check } from "./checks.ts";
import { type Held, once, type Point, planOf, readHeld, sumOf } from "./plans.ts";

const SOURCE = "common practice, no published source";
const ACROSS = 1.5;
const RIM = ACROSS / 2;
const EYE_HEIGHT = 1.55;
const CAMERA_SIDE = { bearing: 180 };
const UP = { bearing: 0, tilt: 90 };
/** To the front and up, about where light from behind the rim comes from. */
const FRONT_UP = { bearing: 180, tilt: 30 };

const shape = buildPerson({ stature: 1.7, pose: "standing", seatHeight: 0.45, eyeHeight: EYE_HEIGHT });
const { noseBridge, upperLip, chin } = shape.head.landmarks;
const { corneaCentre, corneaRadius } = shape.head.leftEye;

/** The bridge of the nose, where the light vector of a face is read. */
const FACE: Point = [3.5, 4.5, EYE_HEIGHT + noseBridge[2] - shape.head.leftEye.centre[2]];
const EARS: Point = [FACE[0], FACE[1] + noseBridge[0], FACE[2] - noseBridge[2]];
/** From head axes; the sitter looks to the camera side, so that the own left is to the right. */
const onHead = (ahead: number, left: number, up: number): Point => [
  EARS[0] + left,
  EARS[1] - ahead,
  EARS[2] + up,
];
/** Places that brow, nose and chin hang over: before the front of an eye, between nose and lip, under the jaw. */
const UNDER = {
  brow: onHead(corneaCentre[0] + corneaRadius + 0.004, corneaCentre[1], corneaCentre[2]),
  nose: onHead(upperLip[0] + 0.006, 0, upperLip[2] + 0.006),
  chin: onHead(chin[0] - 0.02, 0, chin[2] - 0.012),
} as const;
type Under = keyof typeof UNDER;

type Place = "outside" | "aimed" | "under";
/** `gap` metres from the rim to the face, level and upright alike; "under": the sitter has gone forward at the same
 * height until the face is below the centre. The front moves instead of the sitter, which is the same in open space. */
function setUp(place: Place, gap: number) {
  const y = place === "under" ? FACE[1] : FACE[1] - RIM - gap;
  return {
    lights: [
      {
        name: "front",
        position: [FACE[0], y, FACE[2] + gap],
        direction: place === "aimed" ? { at: FACE } : { bearing: 0, tilt: -90 },
        face: { shape: "polygon", sides: 8, width: ACROSS },
        beam: { exponent: 1 },
        output: { lumenSeconds: 1600 },
      },
    ],
    people: [{ position: [EARS[0], EARS[1]], eyeHeight: EYE_HEIGHT, facing: 180 }],
    camera: { position: [FACE[0], 1.6, EYE_HEIGHT], direction: { at: FACE } },
  };
}

/** All that is asked of one place: with the sitter there, and what arrives where they are when they are not. */
function look(place: Place, gap: number) {
  const parts = setUp(place, gap);
  const held: Held[] = [
    { position: FACE, direction: CAMERA_SIDE, receptor: "dome" },
    ...Object.values(UNDER).flatMap((position): Held[] => [
      { position, direction: FRONT_UP },
      { position, direction: UP },
    ]),
  ];
  const taken = readHeld({ ...parts, people: [] }, held);
  const there = readPlan(planOf({ ...parts, meters: held.slice(1) }), "fine");
  const index = (where: Under, steep: boolean) => 2 * Object.keys(UNDER).indexOf(where) + (steep ? 1 : 0);
  return {
    elevation: there.people[0].face.light.elevation ?? Number.NaN,
    azimuth: there.people[0].face.light.azimuth ?? Number.NaN,
    dome: taken[0].luxSeconds,
    turned: taken[0].vector.luxSeconds,
    /** how much of what would arrive there the head lets through; the meter turned to the front, or straight up */
    reached: (where: Under, steep: boolean) =>
      sumOf(there.meters[index(where, steep)], "direct") / sumOf(taken[1 + index(where, steep)], "direct"),
  };
}

const GAPS = [0.5, 0.7, 0.9] as const;
const looks = new Map<string, () => ReturnType<typeof look>>();
for (const gap of GAPS)
  for (const place of ["outside", "aimed", "under"] as const)
    looks.set(
      place + gap,
      once(() => look(place, gap)),
    );
function at(place: Place, gap: number): ReturnType<typeof look> {
  const made = looks.get(place + gap);
  if (!made) throw new Error(`no such place: ${place} ${gap}`);
  return made();
}

const range = (id: string, what: string, low: number, high: number, ours: () => number): Check => ({
  id: `trade ${id}`,
  what,
  source: SOURCE,
  published: (low + high) / 2,
  ours,
  tolerance: (high - low) / 2,
  absolute: true,
  why: `practice gives a range: ${low} to ${high}`,
});
const stops = (a: number, b: number) => Math.log2(a / b);

const byGap: Check[] = GAPS.flatMap((gap) => {
  const where = `face ${gap} m behind and below the rim of a front of 1.5 m that looks down`;
  return [
    range(
      `elevation ${gap}`,
      `${where}: light vector, degrees above the horizon`,
      25,
      40,
      () => at("outside", gap).elevation,
    ),
    range(
      `azimuth ${gap}`,
      `${where}: light vector, degrees aside of the nose`,
      -1,
      1,
      () => at("outside", gap).azimuth,
    ),
    range(
      `sockets ${gap}`,
      `${where}: share of the light that reaches the eye past the brow`,
      0.5,
      1.001,
      () => at("outside", gap).reached("brow", false),
    ),
    range(
      `aimed dome ${gap}`,
      `${where}, then aimed at it: gain on a dome to the camera, stops`,
      0.5,
      0.9,
      () => stops(at("aimed", gap).dome, at("outside", gap).dome),
    ),
    range(
      `aimed flat ${gap}`,
      `${where}, then aimed at it: gain on a flat meter turned to the light, stops`,
      0.5,
      0.9,
      () => stops(at("aimed", gap).turned, at("outside", gap).turned),
    ),
    range(
      `aimed drop ${gap}`,
      `${where}, then aimed at it: drop of the light vector, degrees`,
      4,
      9,
      () => at("outside", gap).elevation - at("aimed", gap).elevation,
    ),
    range(
      `under dome ${gap}`,
      `from there ${RIM + gap} m forward to under the centre: gain on a dome to the camera, stops`,
      1.3,
      1.9,
      () => stops(at("under", gap).dome, at("outside", gap).dome),
    ),
    range(
      `under elevation ${gap}`,
      `under the centre, ${gap} m below: light vector, degrees above the horizon`,
      60,
      90.001,
      () => at("under", gap).elevation,
    ),
    ...(["brow", "nose", "chin"] as const).map((what) =>
      range(
        `under ${what} ${gap}`,
        `under the centre, ${gap} m below: share of the light from above that reaches past the ${what}`,
        0,
        0.5,
        () => at("under", gap).reached(what, true),
      ),
    ),
  ];
});

export const checks: Check[] = byGap;
