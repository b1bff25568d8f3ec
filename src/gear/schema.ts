/** The shelf document: what somebody owns. The one source of its types and its checks.
 * Default values are those of a middling thing of its kind (common practice, no source) unless a source is named. */
import { z } from "zod";
import {
  kelvin,
  line,
  oneOf,
  quantity,
  reflectance,
  share,
  size,
  wholeNumber,
  yesOrNo,
} from "../plan/parts.ts";
import { dial, face, lobe } from "../plan/schema-lights.ts";
import { MOST_KG } from "../plan/schema-support.ts";

export const SHELF_FORMAT = "tapemark/shelf";
export const SHELF_VERSION = 1;

/** Of each kind: more than anybody carries. */
export const MOST_PIECES = 200;

/** What each thing on the shelf has. The name is its mark: no two of a kind have the same. */
const piece = {
  name: line(1, 80).refine((text) => text.trim() === text && text !== "__proto__", {
    error: "must be a name without blanks at its ends",
  }),
  count: wholeNumber(1, 99).default(1).describe("1 when left out."),
  mass: quantity(0, MOST_KG, "kg").nullable().default(null).describe("Of one. Not weighed when left out."),
  isTypical: yesOrNo
    .default(false)
    .describe("Its numbers are those of its kind, not of this very piece. False when left out."),
  notes: line(0, 400).default("").describe("Nothing when left out."),
};

const full = z.union(
  [
    z.strictObject({
      wattSeconds: quantity(0.1, 1e6, "Ws"),
      lumensPerWatt: quantity(0.01, 300, "lm/W")
        .default(35)
        .describe(
          "35 when left out: the middle of the 30 to 40 usual for xenon tubes; a guess until measured.",
        ),
    }),
    z.strictObject({ lumenSeconds: quantity(0.001, 1e9, "lm.s") }),
  ],
  { error: 'must be { "wattSeconds": … } or { "lumenSeconds": … }: what its tube gives at full power' },
);

/** How it shines with nothing on it but its own reflector. */
const bare = z.strictObject({
  face: face.default({ shape: "disc", width: 0.18 }),
  beam: lobe.default({ exponent: 3, edgeDrop: 0 }),
});

const duration = z.strictObject({
  seconds: quantity(1e-6, 1, "s"),
  measured: oneOf("t0.1", "t0.5").default("t0.5").describe("t0.5 when left out: what makers state."),
});

const head = z.strictObject({
  ...piece,
  full: full.describe("What its tube gives in one flash at full power."),
  bare: bare.prefault({}),
  dial: dial.prefault({}),
  recycle: quantity(0.01, 120, "s")
    .nullable()
    .default(null)
    .describe("From a full-power flash. Not known when left out."),
  duration: duration.nullable().default(null).describe("Of a full-power flash. Not known when left out."),
  lampWatts: quantity(0, 2000, "W").default(0).describe("Of its modelling lamp. 0 when left out."),
  charging: quantity(0.1, 1, "")
    .default(0.8)
    .describe("Share of what it draws that is stored. 0.8 when left out."),
  kelvin: kelvin.default(5600).describe("5600 when left out."),
});

const loss = z.strictObject({
  stops: quantity(0, 10, "stops").describe(
    "of all that the bare head sends out, what does not leave its front",
  ),
  from: oneOf("typical", "measured").default("typical"),
});

const modifier = z.strictObject({
  ...piece,
  face,
  beam: lobe.prefault({}),
  loss: loss.default({ stops: 1, from: "typical" }).describe("1 when left out."),
});

const panel = z.strictObject({
  ...piece,
  width: size,
  height: size,
  reflectance: reflectance.default(0.85),
  transmittance: share.default(0),
});

const arm = z.strictObject({
  reach: quantity(0, 6, "m").describe("level, from the column to what it carries"),
  mass: quantity(0, MOST_KG, "kg").default(0),
  counterReach: quantity(0, 6, "m").default(0),
  counterweight: quantity(0, MOST_KG, "kg").default(0),
});

const stand = z
  .strictObject({
    ...piece,
    lowest: quantity(0, 10, "m").default(0.6).describe("of a front's centre on it"),
    highest: quantity(0.1, 10, "m").default(2.8).describe("of a front's centre on it"),
    legs: wholeNumber(3, 6).default(3),
    footRadius: quantity(0.05, 3, "m").default(0.5),
    isWheeled: yesOrNo.default(false),
    arm: arm.nullable().default(null).describe("None when left out."),
  })
  .refine(({ lowest, highest }) => lowest <= highest, {
    path: ["highest"],
    error: "must not be under its lowest",
  });

const paper = z.strictObject({
  ...piece,
  width: size.default(2.72).describe("2.72 when left out: the usual full-width roll."),
  reflectance: reflectance.default(0.18),
});

const lens = z
  .strictObject({
    ...piece,
    shortest: quantity(1, 2000, "mm"),
    longest: quantity(1, 2000, "mm"),
    widest: quantity(0.5, 64, "").describe("f-number of its widest aperture, at its longest"),
    smallest: quantity(0.5, 256, "").default(16).describe("f-number of its smallest aperture"),
  })
  .refine(({ shortest, longest }) => shortest <= longest, {
    path: ["longest"],
    error: "must not be under its shortest",
  });

const body = z.strictObject({
  ...piece,
  sensor: z
    .strictObject({ width: quantity(1, 200, "mm"), height: quantity(1, 200, "mm") })
    .default({ width: 36, height: 24 }),
  pixels: z
    .strictObject({ width: wholeNumber(16, 100000), height: wholeNumber(16, 100000) })
    .nullable()
    .default(null),
  sync: quantity(1e-5, 1, "s")
    .nullable()
    .default(null)
    .describe("Shortest shutter with flash over the whole frame. Not known when left out."),
  baseIso: quantity(1, 1e6, "").default(100),
});

/** Bags, cables, clamps: carried always, in no plan. */
const other = z.strictObject(piece);

const listOf = <T extends z.ZodType<{ readonly name: string }>>(item: T) =>
  z
    .array(item, { error: "must be a list in brackets: [ … ]" })
    .max(MOST_PIECES, { error: `must have at most ${MOST_PIECES} entries` })
    .default([])
    .superRefine((pieces, { addIssue }) => {
      const names = new Set<string>();
      for (const [i, { name }] of pieces.entries()) {
        if (names.has(name))
          addIssue({
            code: "custom",
            path: [i, "name"],
            message: "must be another name: there is one of this name",
          });
        names.add(name);
      }
    });

export const shelfSchema = z.strictObject({
  format: z.literal(SHELF_FORMAT, { error: `must be "${SHELF_FORMAT}"` }),
  version: z.literal(SHELF_VERSION, { error: `must be ${SHELF_VERSION}` }),
  heads: listOf(head),
  modifiers: listOf(modifier),
  panels: listOf(panel),
  stands: listOf(stand),
  papers: listOf(paper),
  lenses: listOf(lens),
  bodies: listOf(body),
  others: listOf(other),
});

export type Shelf = z.output<typeof shelfSchema>;
export type ShelfHead = z.output<typeof head>;
export type ShelfModifier = z.output<typeof modifier>;
export type ShelfPanel = z.output<typeof panel>;
export type ShelfStand = z.output<typeof stand>;
export type ShelfPaper = z.output<typeof paper>;
export type ShelfLens = z.output<typeof lens>;
export type ShelfBody = z.output<typeof body>;
export type ShelfOther = z.output<typeof other>;
export type HeadFull = ShelfHead["full"];

/** The lists of a shelf, in the order in which people pack. */
export const KINDS = [
  "heads",
  "modifiers",
  "panels",
  "stands",
  "papers",
  "lenses",
  "bodies",
  "others",
] as const satisfies readonly (keyof Shelf)[];
export type Kind = (typeof KINDS)[number];
export type PieceOf<K extends Kind> = Shelf[K][number];
/** What every thing on the shelf has, whatever its kind. */
export type Piece = ShelfOther;
export const ONE_PIECE: Readonly<Record<Kind, string>> = {
  heads: "head",
  modifiers: "modifier",
  panels: "panel",
  stands: "stand",
  papers: "paper roll",
  lenses: "lens",
  bodies: "body",
  others: "other thing",
};
