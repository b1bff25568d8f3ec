/** What the eye tells apart at a distance, pixels an inch, and blurs that end in a print. */
import {
  defocusBlur,
  depthOfField,
  diffractionApart,
  eyePixelsPerInch,
  eyeResolves,
  motionBlur,
  unseenFrom,
} from "../src/photometry/index.ts";
import { type Check, PRINTED, printed } from "./checks.ts";

const ARC = "one minute of arc (Snellen; ISO 8596): 3437.75 over inches";
const QUOTED = "pixelcraft.photo.blog, visual perception: 3438 over inches";
const WIKI = "moin.meidokon.net, ResolutionAndViewingAngles";
const DEPTH = "thin lens: the circle at the limits of depth of field, published-checks section 12";
const INCH = 25.4;

/** distance in mm; pixels an inch */
const perInch: [string, number, number][] = [
  ["10 in", 10 * INCH, 343.775],
  ["12 in", 12 * INCH, 286.479],
  ["24 in", 24 * INCH, 143.239],
  ["36 in", 36 * INCH, 95.493],
  ["1 m", 1000, 87.3187],
  ["10 ft", 120 * INCH, 28.6479],
  ["15 m", 15000, 5.82125],
];
/** f, N, c, focus; near and far limit, printed to six figures (section 12) */
const limits: [number, number, number, number, number, number][] = [
  [85, 8, 0.03, 2000, 1880.38, 2135.87],
  [50, 2.8, 0.03, 3000, 2729.46, 3330.08],
  [105, 11, 0.03, 1500, 1439.88, 1565.36],
  [50, 8, 0.02, 2000, 1778.09, 2285.19],
];
const rounded = (why: string, tolerance: number) => ({ tolerance, why });

export const checks: Check[] = [
  ...perInch.map(([from, distance, published]) =>
    printed(`13 ppi ${from}`, `pixels an inch that the eye sees from ${from}`, ARC, published, () =>
      eyePixelsPerInch(distance),
    ),
  ),
  {
    id: "13 ppi quoted 11.46 in",
    what: "pixels an inch that the eye sees from 11.46 in, as quoted",
    source: QUOTED,
    published: 300,
    ours: () => eyePixelsPerInch(11.46 * INCH),
    ...rounded("quoted to a whole pixel", 0.5 / 300),
  },
  {
    id: "13 ppi quoted 24 in",
    what: "pixels an inch that the eye sees from 24 in, as quoted",
    source: QUOTED,
    published: 143,
    ours: () => eyePixelsPerInch(24 * INCH),
    ...rounded("quoted to a whole pixel", 0.5 / 143),
  },
  {
    id: "13 ppi quoted 1 m",
    what: "pixels an inch that the eye sees from 1 m, as quoted",
    source: WIKI,
    published: 87,
    ours: () => eyePixelsPerInch(1000),
    ...rounded("quoted to a whole pixel", 0.5 / 87),
  },
  {
    id: "13 ppi quoted 10 m",
    what: "pixels an inch that the eye sees from 10 m, as quoted",
    source: WIKI,
    published: 9,
    ours: () => eyePixelsPerInch(10000),
    ...rounded("quoted to a whole pixel", 0.5 / 9),
  },
  printed("13 arc 6 m", "one minute of arc at 6 m, mm", ARC, 1.74533, () => eyeResolves(6000)),
  printed("13 letter 6 m", "a letter of five minutes at 6 m, mm", ARC, 8.72665, () => 5 * eyeResolves(6000)),
  printed("13 letter 20 ft", "a letter of five minutes at 20 ft, mm", ARC, 8.86628, () =>
    eyeResolves(5 * 240 * INCH),
  ),
  printed("13 arc 25 cm", "one minute of arc at 25 cm, mm", ARC, 0.0727221, () => eyeResolves(250)),
  printed("13 line pairs 25 cm", "line pairs a millimetre at 25 cm", ARC, 6.87549, () => {
    return 1 / (2 * eyeResolves(250));
  }),
  printed("13 pixels 24 in at 60 in", "pixels that the eye sees across 24 in from 60 in", ARC, 1375.1, () => {
    return (24 * INCH) / eyeResolves(60 * INCH);
  }),
  printed("13 unseen 1 arc", "distance from which 1.74533 mm is one minute, mm", ARC, 6000, () =>
    unseenFrom(1.74533),
  ),
  ...limits.flatMap(([f, n, c, s, near, far]) =>
    [near, far].map((limit, k): Check => {
      const which = k === 0 ? "near" : "far";
      return {
        id: `13 blur f${f} N${n} s${s} ${which}`,
        what: `blur at the ${which} limit of ${f} mm at f/${n} focused at ${s} mm, mm`,
        source: DEPTH,
        published: c,
        ours: () => defocusBlur(f, n, s, limit),
        // the limit's last figure moves its small distance from the focus by this much
        tolerance: 0.005 / Math.abs(limit - s) + 1e-5,
        why: "the limits are printed to six figures",
      };
    }),
  ),
  {
    id: "13 blur and depth of field",
    what: "blur at the far limit of 135 mm at f/8 focused at 2700 mm over the circle asked for",
    source: "thin lens: both are one formula",
    published: 1,
    ours: () => defocusBlur(135, 8, 2700, depthOfField(135, 8, 0.0288444, 2700).far_mm) / 0.0288444,
    tolerance: 1e-12,
    why: "a law of the sum itself: rounding alone",
  },
  {
    id: "13 motion 0.1 m/s",
    what: "how far 0.1 m/s go on the sensor in 1/160 s with 135 mm at 2700 mm, mm",
    source: "thin lens, m = f / (s − f): 0.625 mm × 135 / 2565",
    published: 0.0328947,
    ours: () => motionBlur(0.1, 1 / 160, 135, 2700),
    ...PRINTED,
  },
  printed(
    "13 Rayleigh f/16",
    "two points just told apart at f/16, 550 nm, µm",
    "half of the Airy disc",
    10.73305,
    () => 1000 * diffractionApart(16),
  ),
];
