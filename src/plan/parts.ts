/** Numbers, places and directions that the whole plan is made of, with their bounds. */
import { z } from "zod";

// A page with a strict content policy forbids code made from text; without this the schemas would try it first.
z.config({ jitless: true });

/** A finite number within bounds; the message names the bounds and the unit. */
export function quantity(low: number, high: number, unit: string) {
  const range = `must be a number from ${low} to ${high}${unit ? ` ${unit}` : ""}`;
  return z.number({ error: range }).min(low, { error: range }).max(high, { error: range });
}

export function wholeNumber(low: number, high: number) {
  const range = `must be a whole number from ${low} to ${high}`;
  return z.int({ error: range }).min(low, { error: range }).max(high, { error: range });
}

export function oneOf<const T extends readonly [string, ...string[]]>(...words: T) {
  const quoted = words.map((w) => `"${w}"`);
  const last = quoted.pop();
  return z.enum(words, { error: `must be ${quoted.length > 0 ? `${quoted.join(", ")} or ` : ""}${last}` });
}

export const yesOrNo = z.boolean({ error: "must be true or false" });

/** Larger than any studio; keeps sums away from overflow. */
const FARTHEST = 1000;
const coordinate = quantity(-FARTHEST, FARTHEST, "m");
export const size = quantity(0.001, 100, "m");
export const share = quantity(0, 1, "");
export const angle = quantity(-360, 360, "degrees");
export const kelvin = quantity(1500, 20000, "K");
export const fNumber = quantity(0.5, 256, "");
export const iso = quantity(1, 1e6, "");

/** One line of text: problems, tables and labels are written one to a line. */
export function line(low: number, high: number) {
  return z
    .string({ error: "must be text in quotes" })
    .min(low, { error: "must not be empty" })
    .max(high, { error: `must be at most ${high} characters` })
    .refine((text) => !/\p{Cc}/u.test(text), { error: "must be one line without control characters" });
}

/** Readings list lights by name, and `__proto__` cannot be such an entry. */
export const name = line(1, 80).refine((text) => text !== "__proto__", {
  error: "must be another name; this one is a reserved word",
});

/** Whether a name is that of a file beside the plan: no folders, nothing hidden, no reserved word. */
export function isFileName(text: string): boolean {
  return !/[\\/:]/.test(text) && !text.startsWith(".") && text !== "__proto__";
}

export const fileName = line(1, 120).refine(isFileName, {
  error: "must be a file's name without folders, that begins with no dot",
});

export const point = z.tuple([coordinate, coordinate, coordinate], {
  error: "must be three numbers in metres: [x, y, z]",
});
export const floorPoint = z.tuple([coordinate, coordinate], {
  error: "must be two numbers in metres: [x, y]",
});

export const direction = z.union(
  [
    z.strictObject({
      bearing: angle.describe("0 = into the set (+y), 90 = to the right (+x), clockwise seen from above"),
      tilt: quantity(-90, 90, "degrees").default(0).describe("90 = straight up. Level when left out."),
    }),
    z.strictObject({ at: point.describe("the point looked at") }),
  ],
  { error: 'must be { "bearing": degrees, "tilt": degrees } or { "at": [x, y, z] }' },
);

export const reflectance = z.union([share, z.tuple([share, share, share])], {
  error: "must be a number from 0 to 1, or three of them: [r, g, b]",
});

/** Classes of the individual typology angle, published-checks section 10. */
export const TONES = ["very light", "light", "intermediate", "tan", "brown", "dark"] as const;

/** Skin: measured as a reflectance, read off a chart, or told by class. */
export const skinReflectance = z.union(
  [
    share,
    z.tuple([share, share, share], { error: "must be three numbers from 0 to 1: [r, g, b]" }),
    z.strictObject({
      tone: oneOf(...TONES).describe("class of the individual typology angle: the middle of the class"),
    }),
    z.strictObject({
      lab: z
        .tuple([quantity(1, 100, ""), quantity(-20, 60, ""), quantity(-20, 60, "")], {
          error: "must be three numbers: [L*, a*, b*]",
        })
        .describe("CIELAB of the skin as measured, D65 and 2 degrees: [L*, a*, b*]"),
    }),
  ],
  {
    error:
      'must be a number from 0 to 1, three of them: [r, g, b], a class: { "tone": "light" }, or a measured patch: ' +
      '{ "lab": [L*, a*, b*] }',
  },
);

export const pinned = yesOrNo
  .default(false)
  .describe(
    "Stays where it is: it cannot be dragged or nudged, and no search moves it. False when left out: a plan is tried out.",
  );

export type Vec3 = z.output<typeof point>;
export type Direction = z.output<typeof direction>;
export type Reflectance = z.output<typeof reflectance>;
export type SkinReflectance = z.output<typeof skinReflectance>;
export type Tone = (typeof TONES)[number];
