/** Photometric files by ANSI/IES LM-63: the worked sample and files with a closed form. */
import { readFileSync } from "node:fs";
import { intensityPerLumen } from "../src/engine/index.ts";
import { photometricWeb, readPhotometricFile, webFlux } from "../src/photometry/index.ts";
import { checkPlan, parsePlan } from "../src/plan/index.ts";
import { readPlan } from "../src/reading/index.ts";
import { emitterOf } from "../src/staging/index.ts";
import { type Check, PRINTED } from "./checks.ts";

const SAMPLE = fileOf([0, 5, 10, 20, 30, 45, 65, 90], [1000, 1100, 1300, 1150, 930, 650, 350, 0]);

function fileOf(vertical: number[], candela: number[]): string {
  return [
    "IESNA91",
    "[TEST] worked sample",
    "TILT=NONE",
    "1 -1 1",
    `${vertical.length} 1 1 2 0 0 0`,
    "1 1 0",
    vertical.join(" "),
    "0",
    candela.join(" "),
    "",
  ].join("\r\n");
}

/** Every `step` degrees from 0 to `last`. */
function table(step: number, last: number, of: (rad: number) => number): string {
  const angles = Array.from({ length: last / step + 1 }, (_, i) => i * step);
  return fileOf(
    angles,
    angles.map((a) => Math.max(0, of((a * Math.PI) / 180))),
  );
}

function flux(text: string, frontOnly: boolean): number {
  const read = readPhotometricFile(text);
  if (!read.ok) throw new Error(read.fault.what);
  return webFlux(photometricWeb(read.file, frontOnly));
}

/** A light that is this file, 1,000 lm.s, 2 m over a flat meter that looks up at `away` metres from under it. */
function plan(text: string, face: object, beam: object, away = 0) {
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    photometry: { "lamp.ies": text },
    lights: [
      {
        name: "lamp",
        position: [0, 0, 2],
        direction: { bearing: 0, tilt: -90 },
        face,
        beam,
        output: { lumenSeconds: 1000 },
      },
    ],
    meters: [{ name: "flat", position: [away, 0, 0], direction: { bearing: 0, tilt: 90 } }],
  });
  if (!checked.ok) throw new Error(checked.problems[0].what);
  return checked.plan;
}

const reads = (text: string, face: object, away = 0) =>
  readPlan(plan(text, face, { photometry: "lamp.ies" }, away), "fine").meters[0].luxSeconds;

/** Intensity of the staged light along one direction, cd for the file's own flux. */
function candelaAt(text: string, degrees: number): number {
  const p = plan(text, { shape: "point" }, { photometry: "lamp.ies" });
  const { distribution } = emitterOf(p.lights[0], p);
  if (!distribution) throw new Error("no distribution");
  const a = (degrees * Math.PI) / 180;
  return intensityPerLumen(distribution, Math.cos(a), Math.sin(a), 0) * flux(text, false);
}

let example: ReturnType<typeof readPlan> | undefined;

/** The example with a file that differs along and across, at its meters. */
function exampleReads(meter: number): number {
  if (!example) {
    const parsed = parsePlan(readFileSync("examples/strip-by-file.json", "utf8"));
    if (!parsed.ok) throw new Error(parsed.problems[0].what);
    example = readPlan(parsed.plan, "fine");
  }
  return example.meters[meter].byLight.strip.direct;
}

/** Flux between two angles of 1 cd all over them: the zonal constant. */
function zone(from_deg: number, to_deg: number): number {
  return webFlux({
    vertical_rad: Float64Array.of((from_deg * Math.PI) / 180, (to_deg * Math.PI) / 180),
    horizontal_rad: Float64Array.of(0),
    candela: Float64Array.of(1, 1),
  });
}
/** zones of 10 degrees from 0 on */
const ZONAL = [0.0954557, 0.283467, 0.462865, 0.628199, 0.774446, 0.897161, 0.992617, 1.05791, 1.09106];

const SOURCE = "published-checks section 15: worked LM-63 sample; closed forms";
const COSINE = table(1, 90, (a) => 1000 * Math.cos(a));
const LINEAR = "a table of whole degrees is linear between them: 5e-5";

export const checks: Check[] = [
  {
    id: "15 sample flux",
    what: "flux of the sample, lm",
    source: SOURCE,
    published: 3056.14,
    ours: () => flux(SAMPLE, true),
    ...PRINTED,
  },
  ...[
    [15, 1225],
    [25, 1040],
    [80, 140],
  ].map(
    ([angle, cd]): Check => ({
      id: `15 sample ${angle}`,
      what: `intensity of the sample at ${angle} degrees, cd`,
      source: SOURCE,
      published: cd,
      ours: () => candelaAt(SAMPLE, angle),
      tolerance: 1e-9,
      why: "linear between two angles: rounding alone",
    }),
  ),
  {
    id: "15 cosine flux",
    what: "flux of 1000 cos, lm",
    source: SOURCE,
    published: 3141.59,
    ours: () => flux(COSINE, true),
    tolerance: 5e-5,
    why: LINEAR,
  },
  {
    id: "15 isotropic flux",
    what: "flux of 100 cd all round, lm",
    source: SOURCE,
    published: 1256.64,
    ours: () =>
      flux(
        table(10, 180, () => 100),
        false,
      ),
    ...PRINTED,
  },
  {
    id: "15 isotropic front",
    what: "flux of 100 cd into the half-space in front, lm",
    source: SOURCE,
    published: 628.319,
    ours: () =>
      flux(
        table(10, 180, () => 100),
        true,
      ),
    ...PRINTED,
  },
  ...ZONAL.map(
    (constant, i): Check => ({
      id: `15 zone ${10 * i}`,
      what: `zonal constant of ${10 * i} to ${10 * i + 10} degrees, lm per cd`,
      source: "published-checks section 15: zonal constants, 2 pi (cos a - cos b)",
      published: constant,
      ours: () => zone(10 * i, 10 * i + 10),
      ...PRINTED,
    }),
  ),
  {
    id: "15 mid-zone sum",
    what: "flux of 1000 cos by the middles of zones of 10 degrees, lm: 0.382 % high",
    source: "published-checks section 15",
    published: 3153.59,
    ours: () =>
      ZONAL.reduce(
        (sum, _, i) => sum + 1000 * Math.cos(((10 * i + 5) * Math.PI) / 180) * zone(10 * i, 10 * i + 10),
        0,
      ),
    ...PRINTED,
  },
  ...[77.6435, 71.2979, 63.8474].map(
    (exposure, i): Check => ({
      id: `15 example ${i}`,
      what: `the strip of examples/strip-by-file.json at its meter ${i + 1}, lx.s`,
      source:
        "a plain sum apart from this code: 600 x 600 directions for the flux, 24 x 120 squares of the front for the rest",
      published: exposure,
      ours: () => exampleReads(i),
      tolerance: 2e-4,
      why: "squares of a centimetre at 2 m",
    }),
  ),
  {
    id: "15 point under",
    what: "1,000 lm.s of a cosine file from a point 2 m up, lx.s",
    source: "I = Q / pi, E = I / d^2",
    published: 1000 / Math.PI / 4,
    ours: () => reads(COSINE, { shape: "point" }),
    tolerance: 1e-4,
    why: LINEAR,
  },
  {
    id: "15 point aside",
    what: "the same 2 m aside: E = I cos / d^2 of I cos",
    source: "I = Q / pi cos 45, E = I cos 45 / d^2",
    published: (1000 / Math.PI) * 0.5 * (1 / 8),
    ours: () => reads(COSINE, { shape: "point" }, 2),
    tolerance: 1e-4,
    why: LINEAR,
  },
  {
    id: "15 disc under",
    what: "a disc of 1 m whose file is a cosine, 2 m up, is a perfect diffuser, lx.s",
    source: "Howell B-12: E = M r^2 / (r^2 + h^2), M = Q / A",
    published: (1000 / (Math.PI * 0.25)) * (0.25 / 4.25),
    ours: () => reads(COSINE, { shape: "disc", width: 1 }),
    tolerance: 1e-3,
    why: "asked 0.5 %; parts and table each cost less than a thousandth",
  },
];
