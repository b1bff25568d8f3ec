/** What a shelf begins with: things as many studios have them, no maker's, every number marked typical. Sizes, weights and
 * times are common practice, no source, unless one is named. */
import { SHELF_FORMAT, SHELF_VERSION, type Shelf, shelfSchema } from "./schema.ts";

const typical = { isTypical: true };
const DIFFUSED = { exponent: 1, edgeDrop: 0.3 };
/** Umbrella about 2 stops, box 1 to 3, a grid 1 to 2 more: the trade's rule, of what the meter reads. The energy that leaves
 * falls less, because a box sends it out wide. */
const boxed = (stops: number) => ({ stops, from: "typical" as const });

export const STARTER_SHELF: Shelf = shelfSchema.parse({
  format: SHELF_FORMAT,
  version: SHELF_VERSION,
  heads: [
    {
      ...typical,
      name: "studio head 400 Ws",
      count: 2,
      mass: 2.6,
      full: { wattSeconds: 400 },
      dial: { marked: "stops", range: 6, step: 0.1 },
      recycle: 1.2,
      duration: { seconds: 1 / 900, measured: "t0.5" },
      lampWatts: 60,
    },
    {
      ...typical,
      name: "battery head 600 Ws",
      mass: 3.2,
      full: { wattSeconds: 600 },
      dial: { marked: "fractions", range: 8, step: 0.1 },
      recycle: 1.5,
      duration: { seconds: 1 / 220, measured: "t0.1" },
      lampWatts: 20,
    },
    {
      ...typical,
      name: "small flash 60 Ws",
      mass: 0.45,
      full: { wattSeconds: 60 },
      bare: { face: { shape: "rectangle", width: 0.06, height: 0.04 }, beam: { exponent: 4 } },
      dial: { marked: "fractions", range: 7, step: 0.33 },
      recycle: 2.5,
      duration: { seconds: 1 / 300, measured: "t0.5" },
    },
  ],
  modifiers: [
    {
      ...typical,
      name: "octa 120",
      mass: 1.4,
      face: { shape: "polygon", sides: 8, width: 1.2 },
      beam: DIFFUSED,
      loss: boxed(0.9),
    },
    {
      ...typical,
      name: "octa 150",
      mass: 1.7,
      face: { shape: "polygon", sides: 8, width: 1.5 },
      beam: { exponent: 1, edgeDrop: 0.6 },
      loss: boxed(0.9),
    },
    {
      ...typical,
      name: "box 60 × 90",
      mass: 1.1,
      face: { shape: "rectangle", width: 0.6, height: 0.9 },
      beam: DIFFUSED,
      loss: boxed(0.9),
    },
    {
      ...typical,
      name: "strip 30 × 120",
      mass: 1.2,
      face: { shape: "rectangle", width: 0.3, height: 1.2 },
      beam: DIFFUSED,
      loss: boxed(1.1),
    },
    {
      ...typical,
      name: "dish 55",
      mass: 1.2,
      face: { shape: "disc", width: 0.55 },
      beam: { exponent: 2 },
      loss: boxed(0.7),
    },
    {
      ...typical,
      name: "umbrella 100",
      mass: 0.6,
      face: { shape: "disc", width: 1 },
      beam: { exponent: 1 },
      loss: boxed(0.7),
    },
    {
      ...typical,
      name: "reflector with grid",
      mass: 0.5,
      face: { shape: "disc", width: 0.18 },
      beam: { exponent: 30 },
      loss: boxed(3),
      notes: "The beam of a 20 degree grid, told as a lobe: its edge is softer than a grid's.",
    },
  ],
  panels: [
    { ...typical, name: "V-flat leaf, white", count: 2, mass: 4, width: 1.2, height: 2.4, reflectance: 0.85 },
    { ...typical, name: "V-flat leaf, black", count: 2, mass: 4, width: 1.2, height: 2.4, reflectance: 0.04 },
    { ...typical, name: "scrim 1 × 2", mass: 2.5, width: 1, height: 2, reflectance: 0.4, transmittance: 0.5 },
  ],
  stands: [
    { ...typical, name: "stand", count: 3, mass: 2.5, lowest: 0.6, highest: 2.8, footRadius: 0.5 },
    { ...typical, name: "low stand", mass: 1.5, lowest: 0.2, highest: 0.9, footRadius: 0.4 },
    {
      ...typical,
      name: "boom stand",
      mass: 6,
      lowest: 1,
      highest: 3,
      footRadius: 0.6,
      arm: { reach: 1.2, mass: 1.5, counterReach: 0.7, counterweight: 5 },
    },
  ],
  papers: [
    { ...typical, name: "grey paper 2.72", mass: 6, width: 2.72, reflectance: 0.18 },
    { ...typical, name: "white paper 2.72", mass: 6, width: 2.72, reflectance: 0.85 },
    { ...typical, name: "black paper 1.35", mass: 3, width: 1.35, reflectance: 0.04 },
  ],
  lenses: [
    { ...typical, name: "85 mm f/1.8", mass: 0.45, shortest: 85, longest: 85, widest: 1.8 },
    {
      ...typical,
      name: "70 to 200 mm f/2.8",
      mass: 1.5,
      shortest: 70,
      longest: 200,
      widest: 2.8,
      smallest: 22,
    },
    {
      ...typical,
      name: "24 to 70 mm f/2.8",
      mass: 0.9,
      shortest: 24,
      longest: 70,
      widest: 2.8,
      smallest: 22,
    },
  ],
  bodies: [
    {
      ...typical,
      name: "45 megapixel body",
      mass: 0.75,
      pixels: { width: 8256, height: 5504 },
      // 1/160 to 1/250 is usual of focal-plane shutters, from memory
      sync: 1 / 200,
      baseIso: 64,
    },
  ],
  others: [
    { ...typical, name: "cables, tape, clamps", mass: 4 },
    { ...typical, name: "hand meter", mass: 0.2 },
  ],
});
