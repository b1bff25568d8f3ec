/** Ten set-ups of the cellist's season, from one light to eight people, and readings made up for them. */
import { checkPlan, type Plan } from "../../plan/index.ts";
import type { FaceReading, PlanReading } from "../../reading/index.ts";

export function planOf(fields: object): Plan {
  const checked = checkPlan({ format: "tapemark/plan", version: 1, ...fields });
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  return checked.plan;
}

const room = { width: 7, depth: 9, height: 3.4 };
const output = { wattSeconds: 400, stopsDown: 2.2 };
const key = {
  name: "key",
  position: [4.45, 3.55, 2.45],
  direction: { at: [3.5, 4.5, 1.55] },
  face: { shape: "polygon", sides: 8, width: 1.5 },
  output,
};
const cellist = { name: "cellist", position: [3.5, 4.6], stature: 1.72 };
const camera = { position: [3.5, 1.9, 1.5], direction: { at: [3.5, 4.6, 1.5] }, focalLength: 135 };
const backdrop = { kind: "paper", position: [3.5, 8.2], top: 2.8 };
const chin = { name: "chin", position: [3.5, 4.43, 1.5], direction: { at: [4.45, 3.55, 2.45] } };
const basics = { room, camera, people: [cellist], meters: [chin] };

const around = (n: number, radius: number, height: number, at: readonly [number, number]) =>
  Array.from({ length: n }, (_, i) => {
    const a = (2 * Math.PI * i) / n;
    return [at[0] + radius * Math.sin(a), at[1] + radius * Math.cos(a), height];
  });

export const PLANS: Readonly<Record<string, Plan>> = {
  "one light": planOf({ ...basics, title: "Cellist, one light", lights: [key] }),
  "arm overhead": planOf({
    ...basics,
    title: "Cellist from above",
    lights: [
      { ...key, name: "top", position: [3.5, 4.5, 2.9], direction: { bearing: 0, tilt: -90 } },
      { ...key, name: "fill", on: false, position: [2, 2.5, 1.6] },
    ],
  }),
  "five lights": planOf({
    ...basics,
    title: "Poster, tram shelters",
    backdrop,
    panels: [
      { name: "V-flat, black", position: [2.65, 4.75, 1.2], direction: { bearing: 105 }, reflectance: 0.04 },
    ],
    lights: [
      key,
      { ...key, name: "fill", position: [3.3, 1.4, 1.9], direction: { at: [3.5, 4.6, 1.6] }, roll: 15 },
      {
        ...key,
        name: "rim",
        position: [1.5, 6.5, 2.2],
        face: { shape: "rectangle", width: 0.3, height: 1.2 },
      },
      {
        ...key,
        name: "background left",
        position: [1.6, 6.8, 1.5],
        direction: { at: [4.5, 8.2, 1.5] },
        kelvin: 4300,
      },
      { ...key, name: "background right", position: [5.4, 6.8, 1.5], direction: { at: [2.5, 8.2, 1.5] } },
    ],
  }),
  "taped marks": planOf({
    ...basics,
    title: "Cellist, two places",
    lights: [key],
    marks: [
      { name: "under the cellist", position: [3.5, 4.6] },
      { name: "by the window, second look of the afternoon and the last", position: [5.6, 6.2] },
    ],
  }),
  "long names": planOf({
    ...basics,
    title: `The winter season, ${"long evenings of chamber music in the old tram depot ".repeat(3)}`.trim(),
    people: [
      {
        ...cellist,
        name: "The cellist who plays the viola da gamba too, on Thursdays, in the small hall",
      },
    ],
    lights: [
      { ...key, name: "Large octagonal softbox on the rolling stand, its inner diffuser taken out" },
      {
        ...key,
        name: "Wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww",
        position: [1, 3, 2],
      },
      { ...key, name: '<b>&"quoted" \u00e9\u0142\u4e2d\u6587\ud83c\udfbb</b>', position: [6, 6, 2] },
    ],
    meters: [{ ...chin, name: "Under the chin, a hand in front of the collar, pointed back at the light" }],
  }),
  "open space": planOf({
    title: "On the roof",
    lights: [
      { ...key, position: [0.75, -0.8, 2.2], direction: { at: [0, 0, 1.58] }, output: { guideNumber: 40 } },
    ],
    people: [{ name: "cellist", position: [0, 0.1] }],
    camera: { position: [0, -2.4, 1.6], direction: { at: [0, 0, 1.6] } },
    meters: [{ ...chin, position: [0, -0.08, 1.52] }],
  }),
  "open space, far from zero": planOf({
    title: "In the yard",
    lights: [
      {
        ...key,
        position: [-318.25, 212.5, 3],
        direction: { at: [-320, 215, 1.6] },
        face: { shape: "point" },
      },
    ],
    people: [
      { name: "cellist", position: [-320, 215] },
      { name: "page turner", position: [-318.6, 215.3], stature: 1.5 },
    ],
    camera: { position: [-320, 210, 1.5], direction: { bearing: 0 } },
  }),
  "nobody yet": planOf({ title: "Empty room", room, lights: [key], camera, backdrop }),
  quartet: planOf({
    title: "Quartet, programme page",
    room: { width: 8, depth: 10, height: 3.6 },
    camera: { position: [4, 1.6, 1.5], orientation: "landscape", focalLength: 50 },
    lights: [
      { ...key, position: [6.4, 2.4, 2.7], direction: { at: [3.4, 6, 1.5] }, output: { lumenSeconds: 3200 } },
    ],
    people: ["first violin", "second violin", "viola", "cello"].map((name, i) => ({
      name,
      position: [2.9 + 0.7 * i, 6 + 0.1 * (i % 2)],
      pose: i % 2 === 0 ? "seated" : "standing",
      head: { follows: "camera", turn: 10 * i },
    })),
    meters: [
      { ...chin, name: "dome", position: [3.9, 5.8, 1.4], direction: { bearing: 180 }, receptor: "dome" },
    ],
  }),
  "eight people, twelve lights": planOf({
    title: "Octet and all the heads there are",
    room: { width: 14, depth: 11, height: 4 },
    ambient: { lux: 200 },
    camera: {
      position: [7, 1, 1.6],
      direction: { at: [7, 6, 1.4] },
      orientation: "landscape",
      focalLength: 50,
    },
    lights: around(12, 4.4, 2.6, [7, 5.5]).map((position, i) => ({
      ...key,
      name: `head ${i + 1}`,
      position,
      direction: { at: [7, 5.5, 1.5] },
    })),
    people: around(8, 1.6, 0, [7, 5.5]).map(([x, y], i) => ({ name: `player ${i + 1}`, position: [x, y] })),
    meters: around(6, 1.2, 1.4, [7, 5.5]).map((position, i) => ({
      ...chin,
      name: `meter ${i + 1}`,
      position,
    })),
    panels: around(4, 5.2, 1.2, [7, 5.5]).map((position, i) => ({
      name: `board ${i + 1}`,
      position,
      direction: { at: [7, 5.5, 1.2] },
    })),
  }),
  "small low room": planOf({
    title: "Basement bay",
    room: { width: 2.4, depth: 2.7, height: 2.1 },
    lights: [
      {
        ...key,
        position: [2, 0.6, 1.8],
        direction: { at: [1.2, 1.9, 1.5] },
        face: { shape: "disc", width: 0.9 },
      },
    ],
    people: [{ name: "cellist", position: [1.2, 2], pose: "seated", head: { turn: -20, tip: 5, tilt: 4 } }],
    camera: { position: [1.2, 0.2, 1.2], direction: { at: [1.2, 2, 1.2] }, focalLength: 50 },
    meters: [{ ...chin, position: [1.2, 1.8, 1.15], direction: { bearing: 180, tilt: 0 } }],
  }),
};

const face: FaceReading = {
  pattern: "loop",
  between: null,
  litSide: "left",
  litCheek: 149,
  shadowCheek: 46,
  ratioStops: 1.7,
  litCheekUncertaintyStops: 1,
  ratioUncertaintyStops: 0.2,
  ratio: { litToShadow: 149 / 46, keyToFill: 149 / 46 - 1 },
  side: "square",
  light: { azimuth: 32, elevation: 33 },
  vectorScalarRatio: 2.4,
  spread: "mostly from one side",
  shadowEdgeMillimetres: 14,
  noseShadow: null,
  nearest: { pattern: "rembrandt", turnDegrees: 9, raiseDegrees: null },
  margins: [],
  catchlights: [],
  glasses: null,
};

/** Numbers made up, in the form that a reading has: every light sends 100 lx.s to every meter. */
export function readingFor(plan: Plan): PlanReading {
  const lit = plan.lights.filter((l) => l.on);
  return {
    meters: plan.meters.map(({ name }) => ({
      name,
      luxSeconds: 160,
      fNumber: 8,
      fStops: "f/8 + 0.0",
      uncertaintyStops: 1,
      byLight: Object.fromEntries(lit.map((l) => [l.name, { direct: 90, bounced: 10 }])),
      vector: { bearing: 183, tilt: 41, luxSeconds: 149 },
      scalarLuxSeconds: 61,
      vectorScalarRatio: 2.45,
    })),
    people: plan.people.map(({ name }) => ({ name, face })),
    group: null,
    camera: {
      clipped: { skin: 0, frame: 0.01 },
      headroomStops: 0.6,
      withoutShine: { clippedSkin: 0, headroomStops: 0.7 },
      channels: {
        red: { clippedSkin: 0, headroomStops: 0.7 },
        green: { clippedSkin: 0, headroomStops: 0.7 },
        blue: { clippedSkin: 0, headroomStops: 0.7 },
      },
      backgroundStops: -2.1,
    },
    warnings: [
      {
        about: "light",
        path: "camera",
        state: "skin is close to clipping",
        margin: "0.2 stop left",
        remedy: "close the lens to f/8 + 0.1",
      },
    ],
  };
}
