/** The plan document: the one source of its types, its checks and its published JSON Schema.
 * Every default carries its reason; those that depend on the rest of the plan are in fill-in.ts. */
import { z } from "zod";
import { fileName, line } from "./parts.ts";
import { brief } from "./schema-brief.ts";
import { light } from "./schema-lights.ts";
import { camera, meter, person } from "./schema-people.ts";
import { reading } from "./schema-readings.ts";
import { ambient, backdrop, mark, panel, print, room } from "./schema-set.ts";
import { circuit, shooting } from "./schema-support.ts";

export const FORMAT = "tapemark/plan";
export const VERSION = 1;

/** The lists of a plan, and how many entries each may have. */
export const MOST = { lights: 64, panels: 64, people: 8, meters: 64, marks: 32, readings: 64 } as const;
/** A file of a degree's steps both ways has half of this. */
const MOST_PHOTOMETRY = 1_000_000;
export type ListName = keyof typeof MOST;
export const LISTS = [
  "lights",
  "panels",
  "people",
  "meters",
  "marks",
  "readings",
] as const satisfies readonly ListName[];
export const ONE_OF: Readonly<Record<ListName, string>> = {
  lights: "light",
  panels: "panel",
  people: "person",
  meters: "meter",
  marks: "mark",
  readings: "reading",
};

const listOf = <T extends z.ZodType>(item: T, most: number) =>
  z
    .array(item, { error: "must be a list in brackets: [ … ]" })
    .max(most, { error: `must have at most ${most} entries` })
    .default([])
    .describe("None when left out.");

export const plan = z.strictObject({
  format: z.literal(FORMAT, { error: `must be "${FORMAT}"` }),
  version: z.literal(VERSION, { error: `must be ${VERSION}` }),
  title: line(0, 200).default("Untitled").describe("Untitled when left out."),
  room: room
    .nullable()
    .default(null)
    .describe("null is open space; so when left out: walls that nobody measured must not return light."),
  ambient: ambient.prefault({}),
  lights: listOf(light, MOST.lights),
  photometry: z
    .record(
      fileName,
      z.string({ error: "must be the text of a photometric file" }).max(MOST_PHOTOMETRY, {
        error: `must be at most ${MOST_PHOTOMETRY} characters`,
      }),
      {
        error: ({ code }) =>
          code === "invalid_key"
            ? "must be under a file's name without folders, that begins with no dot"
            : 'must be a group in braces, of texts by file name: { "lamp.ies": "…" }',
      },
    )
    .optional()
    .describe(
      "Texts of the photometric files that lights name, by file name: kept here, they travel with the plan.",
    ),
  backdrop: backdrop.nullable().default(null).describe("None when left out."),
  panels: listOf(panel, MOST.panels),
  people: listOf(person, MOST.people),
  camera: camera.meta({ filledIn: true }),
  meters: listOf(meter, MOST.meters),
  marks: listOf(mark, MOST.marks),
  readings: listOf(reading, MOST.readings),
  print: print
    .nullable()
    .default(null)
    .describe("What the picture is for, as a finished size. Not settled when left out."),
  circuits: z
    .array(circuit, { error: "must be a list in brackets: [ … ]" })
    .max(16, { error: "must have at most 16 entries" })
    .default([])
    .describe("What heads are plugged into. None when left out: no sum of watts is made."),
  shooting: shooting
    .nullable()
    .default(null)
    .describe("How often it flashes and how fast things move. Not settled when left out."),
  brief: brief
    .nullable()
    .default(null)
    .describe("What is wanted and what there is, for a search of set-ups. None when left out."),
});

export type Plan = z.output<typeof plan>;
export type { Brief, Span, SpanWish, Want } from "./schema-brief.ts";
export type { Gear, GearFront, GearLight, GearPanel } from "./schema-gear.ts";
export type { Beam, Dial, Face, Gel, Light, LightCalibration, LightHead, Output } from "./schema-lights.ts";
export type { Camera, Head, Meter, Person } from "./schema-people.ts";
export { ALL_LIGHTS, type Reading, type StandingLight } from "./schema-readings.ts";
export type { Ambient, Backdrop, Mark, Panel, Print, Room } from "./schema-set.ts";
export type { Circuit, Shooting, Support } from "./schema-support.ts";
