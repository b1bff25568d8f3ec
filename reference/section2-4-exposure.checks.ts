import {
  clippingExposure,
  exposureValue,
  focalPlaneExposure,
  guideNumber,
  inverseSquareStops,
  MIDDLE_LEVEL,
  pictureLevel,
  reflectedFNumber,
} from "../src/photometry/index.ts";
import { formatFStops, parseFStops } from "../src/units/index.ts";
import { type Check, PRINTED } from "./checks.ts";

const ISO12232 = "ISO 12232:2006, H = 0.65 L t / N^2, S_sat = 78 / H, S_SOS = 10 / H";
const APEX = "ASA PH2.5-1960, ANSI PH2.12 (APEX)";
const GUIDE = "ISO 1230: guide number = N d; N = sqrt(I S / C) / d";
const row = (id: string, what: string, source: string, published: number, ours: () => number): Check => ({
  id,
  what,
  source,
  published,
  ours,
  ...PRINTED,
});

const tenths = [8, 8.28212, 8.57419, 8.87656, 9.18959, 9.51366, 9.84916, 10.1965, 10.5561, 10.9283];
const distances: [number, number][] = [
  [1.1, -0.275007],
  [2 ** 0.25, -0.5],
  [1.5, -1.16993],
  [2, -2],
  [3, -3.16993],
  [10, -6.64386],
];

export const checks: Check[] = [
  row("2 saturation", "saturation over SOS middle level, stops", ISO12232, 2.96347, () =>
    Math.log2(78 / MIDDLE_LEVEL),
  ),
  row("2 clip", "clipping exposure at ISO 100 with 2.96347 stops of headroom, lx·s", ISO12232, 0.78, () =>
    clippingExposure(100, 2.96347),
  ),
  row("2 sunny 16", "focal-plane exposure of 3200 cd/m² at f/16, 1/100 s", ISO12232, 0.08125, () =>
    focalPlaneExposure(32, 16),
  ),
  row("2 middle", "picture level of the SOS middle level at ISO 100", "ISO 12232 SOS: 118 of 255", 118, () =>
    pictureLevel(0.1, 100, 2.96),
  ),
  row("2 metered", "H S under a reflected reading, K = 12.5", ISO12232, 8.125, () => {
    const n = reflectedFNumber(32, 100);
    return focalPlaneExposure(32, n) * 100;
  }),
  ...tenths.map((n, k) =>
    row(
      `3 tenth ${k}`,
      `f/8 + 0.${k}, exact f-number`,
      APEX,
      n,
      () => parseFStops(formatFStops(n)) ?? Number.NaN,
    ),
  ),
  row("3 EV a", "EV of f/8 at 1/125", APEX, 12.9658, () => exposureValue(8, 1 / 125)),
  row("3 EV b", "EV of f/16 at 1/100", APEX, 14.6439, () => exposureValue(16, 1 / 100)),
  row("4 GN flat", "guide number of 1000 cd·s, C = 250, m", GUIDE, 20, () => guideNumber(1000, 100, 250)),
  row("4 GN dome", "guide number of 1000 cd·s, C = 340, m", GUIDE, 17.1499, () =>
    guideNumber(1000, 100, 340),
  ),
  row(
    "4 GN ISO",
    "guide number of 4000 cd·s at ISO 400 over ISO 100",
    GUIDE,
    2,
    () => guideNumber(4000, 400, 250) / guideNumber(4000, 100, 250),
  ),
  ...distances.map(([d, stops]) =>
    row(
      `4 distance ${d}`,
      `stops when a small source goes ${d} times as far`,
      "inverse square law",
      stops,
      () => inverseSquareStops(1, d),
    ),
  ),
];
