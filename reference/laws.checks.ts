/** Laws that light keeps whatever the set-up is: uniform light, sums, exchange of source and receiver, energy. */
import { Memory, renderFrame } from "../src/reading/index.ts";
import type { Check } from "./checks.ts";
import { grey, type Held, isotropic, once, planOf, readHeld, readOne, sumOf } from "./plans.ts";
import { flux, wallMeters } from "./walls.ts";

const EXACT = { tolerance: 1e-12, why: "a law of the sum itself: rounding alone" } as const;
const BOUNCED = { tolerance: 0.02, why: "interreflection is asked to 2 %" } as const;

const CENTRE: Held = { position: [3.2, 3.1, 1.5], direction: { bearing: 200, tilt: 15 } };

/** Everything white and the same light all round. */
const WHITE = {
  room: { width: 6, depth: 5, height: 3, reflectance: grey(1) },
  ambient: { lux: 1000 },
  panels: [
    { position: [2, 3, 1.2], direction: { bearing: 120 }, reflectance: 1 },
    { position: [4, 3, 1.6], direction: { bearing: 250 }, reflectance: 0.4, transmittance: 0.6 },
  ],
  people: [{ position: [3, 3.6], skin: { reflectance: 1 }, clothing: { reflectance: 1 } }],
  camera: { position: [3, 0.6, 1.5], shutter: 1 },
};
const uniform = once(() => ({
  flat: readOne(WHITE, CENTRE),
  dome: readOne(WHITE, { ...CENTRE, receptor: "dome" }),
}));
const law = (id: string, what: string, published: number, ours: () => number): Check => ({
  id: `law ${id}`,
  what,
  source: "physics: uniform light, sum over lights",
  published,
  ours,
  ...EXACT,
});

/** All that can send light back: walls, panels that reflect and let through, a person, paper. */
const STUDIO = {
  room: { width: 7, depth: 9, height: 3.4 },
  panels: [
    { position: [2.2, 4.7, 1.2], direction: { bearing: 100 }, reflectance: 0.85 },
    {
      position: [4, 4.1, 1.9],
      direction: { at: [4.5, 3.6, 2.4] },
      width: 1.2,
      height: 1.2,
      reflectance: 0.3,
      transmittance: 0.6,
    },
  ],
  backdrop: { kind: "paper", position: [3.5, 7.5] },
  people: [{ position: [3.5, 4.8] }],
};
const key = {
  name: "key",
  position: [4.6, 3.5, 2.5],
  direction: { at: [3.5, 4.8, 1.5] },
  face: { shape: "polygon", sides: 8, width: 1.5 },
  output: { lumenSeconds: 1600 },
};
const fill = {
  name: "fill",
  position: [2, 2.5, 1.8],
  direction: { at: [3.5, 4.8, 1.5] },
  face: { shape: "rectangle", width: 0.6, height: 0.9 },
  beam: { exponent: 2 },
  output: { lumenSeconds: 700 },
};
const chin: Held = { position: [3.5, 4.6, 1.5], direction: { bearing: 150, tilt: 20 } };

function linearity(): Check[] {
  const readings = once(() => {
    const off = (light: object) => ({ ...light, on: false });
    const at = (...lights: object[]) => readOne({ ...STUDIO, lights }, chin);
    return {
      both: at(key, fill),
      keyAlone: at(key, off(fill)),
      fillAlone: at(off(key), fill),
      twice: at({ ...key, output: { lumenSeconds: 3200 } }, fill),
    };
  });
  const shares = ["direct", "bounced"] as const;
  return shares.flatMap((share) => [
    law(`twice ${share}`, `output doubled: ${share} share over what it was`, 2, () => {
      const { both, twice } = readings();
      return twice.byLight.key[share] / both.byLight.key[share];
    }),
    law(`twice other ${share}`, `the other light's ${share} share meanwhile, over what it was`, 1, () => {
      const { both, twice } = readings();
      return twice.byLight.fill[share] / both.byLight.fill[share];
    }),
    law(`sum ${share}`, `two lights on over the sum of each on alone, ${share}`, 1, () => {
      const { both, keyAlone, fillAlone } = readings();
      return sumOf(both, share) / (sumOf(keyAlone, share) + sumOf(fillAlone, share));
    }),
  ]);
}

/** A source of 2 cm, small against every distance here, and a flat meter: what one sends to the other does not depend on
 * which of them is which. */
function exchanged(parts: object, a: Held, b: Held, share: "direct" | "bounced"): number {
  const sent = (from: Held, to: Held) => {
    const source = { ...from, face: { shape: "disc", width: 0.02 }, output: { lumenSeconds: 1000 } };
    return sumOf(readOne({ ...parts, lights: [source] }, to), share);
  };
  return sent(a, b) / sent(b, a);
}

const a: Held = { position: [4.6, 3.5, 2.5], direction: { at: [3.5, 4.8, 1.5] } };
const b: Held = { position: [2.6, 3.2, 1.2], direction: { bearing: 60, tilt: 20 } };
const behindScrim: Held = { position: [3.6, 4.45, 1.6], direction: { at: [4.5, 3.6, 2.4] } };
const aside: Held = { position: [6.2, 7.4, 0.8], direction: { bearing: 300, tilt: 10 } };
const reciprocity: Check[] = (
  [
    ["direct", "straight", STUDIO, a, b, "direct"],
    ["bounced", "by walls, panels, paper and a person", STUDIO, a, b, "bounced"],
    ["scrim", "through a scrim", STUDIO, a, behindScrim, "direct"],
    ["scrim bounced", "on either side of a scrim, bounced", STUDIO, a, behindScrim, "bounced"],
    ["corner", "from a corner, bounced", STUDIO, aside, b, "bounced"],
    ["empty room", "in an empty room, bounced", { room: STUDIO.room }, a, b, "bounced"],
  ] as const
).map(([id, how, parts, from, to, share]) => ({
  id: `law exchange ${id}`,
  what: `light from a small source to a meter over the same with the two exchanged, ${how}`,
  source: "Helmholtz reciprocity",
  published: 1,
  ours: () => exchanged(parts, from, to, share),
  ...BOUNCED,
}));

function cubeMean(rho: number): number {
  const meters = wallMeters([0, 0, 0], [4, 4, 4], 6);
  const room = { width: 4, depth: 4, height: 4, reflectance: grey(rho) };
  const readings = readHeld(
    { room, lights: isotropic([2, 2, 2], 10000) },
    meters.map(({ held }) => held),
  );
  return flux(meters, readings, (reading) => sumOf(reading, "bounced")) / 96;
}

/** A cube of 4 m with light the same all round from its middle: the mean over the walls of what arrives after at least
 * one reflection is Phi rho / (S (1 - rho)), whatever its distribution. 6 Gauss points each way: light on a wall of an
 * empty cube is smooth. */
const meanIndirect: Check[] = [0.2, 0.5, 0.8, 0.9, 0.99, 0.999].map((rho) => ({
  id: `law cube ${rho}`,
  what: `mean indirect illuminance over meters on the walls of a 4 m cube, reflectance ${rho}, lx`,
  source: "CIE 171:2006 case 5.8, exact for the area mean: Phi rho / (S (1 - rho))",
  published: (10000 * rho) / (96 * (1 - rho)),
  ours: () => cubeMean(rho),
  ...BOUNCED,
}));

/** Luminance of the darkest and of the brightest pixel over E t / pi; without the person, whose hair and eyes are dark. */
const whiteFrame = once(() => {
  const empty = {
    ...WHITE,
    people: [],
    panels: WHITE.panels.map((p) => ({ ...p, reflectance: 1, transmittance: 0 })),
  };
  const { luminance } = renderFrame(planOf(empty), { width: 48, quality: "fine" }, new Memory());
  let low = Number.POSITIVE_INFINITY;
  let high = 0;
  for (const x of luminance) {
    low = Math.min(low, (x * Math.PI) / 1000);
    high = Math.max(high, (x * Math.PI) / 1000);
  }
  return { low, high };
});

export const checks: Check[] = [
  law(
    "uniform flat",
    "1000 lx from all round for 1 s, everything white: a flat meter, lx.s",
    1000,
    () => uniform().flat.luxSeconds,
  ),
  law("uniform dome", "the same on a dome: twice that, lx.s", 2000, () => uniform().dome.luxSeconds),
  law("uniform scalar", "the same, scalar, lx.s", 1000, () => uniform().flat.scalarLuxSeconds),
  law(
    "uniform vector",
    "the same: length of the light vector, lx.s",
    0,
    () => uniform().flat.vector.luxSeconds,
  ),
  ...(["low", "high"] as const).map(
    (end): Check => ({
      ...law(
        `uniform frame ${end}`,
        `the same in a frame of white walls and panels: the ${end === "low" ? "darkest" : "brightest"} pixel over E t / pi`,
        1,
        () => whiteFrame()[end],
      ),
      tolerance: 1e-6,
      why: "a frame keeps single precision",
    }),
  ),
  ...linearity(),
  ...reciprocity,
  ...meanIndirect,
  law(
    "cube 1",
    "the same with walls that keep nothing, which has no answer: 1 if what is read is finite",
    1,
    () => (Number.isFinite(cubeMean(1)) ? 1 : 0),
  ),
];
