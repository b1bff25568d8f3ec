/** f-numbers, shutter times, exposure values. */
import { apertureValue, dinSpeed, exposureValue, speedValue, timeValue } from "../src/photometry/index.ts";
import { formatFStops, parseFStops } from "../src/units/index.ts";
import { type Check, printed } from "./checks.ts";

const APEX = "ASA PH2.5-1960, ANSI PH2.12 (APEX)";
const engraved: [string, number][] = [
  ["1", 1],
  // biome-ignore lint/suspicious/noApproximativeNumericConstant: as printed
  ["1.4", 1.41421],
  ["2", 2],
  ["2.8", 2.82843],
  ["4", 4],
  ["5.6", 5.65685],
  ["8", 8],
  ["11", 11.3137],
  ["16", 16],
  ["22", 22.6274],
  ["32", 32],
];
const tenths = [8, 8.28212, 8.57419, 8.87656, 9.18959, 9.51366, 9.84916, 10.1965, 10.5561, 10.9283, 11.3137];
/** f-number, 1 / shutter, EV */
const values: [number, number, number][] = [
  [8, 125, 12.9658],
  [16, 100, 14.6439],
  [5.6, 60, 10.8777],
  [11, 200, 14.5627],
];

export const checks: Check[] = [
  ...engraved.map(([mark, n]) =>
    printed(
      `3 engraved ${mark}`,
      `exact f-number of the engraved f/${mark}`,
      APEX,
      n,
      () => parseFStops(mark) ?? Number.NaN,
    ),
  ),
  ...tenths.map((n, k) =>
    printed(
      `3 tenth ${k}`,
      `f/8 and ${k} tenths of a stop, written and read back`,
      APEX,
      n,
      () => parseFStops(formatFStops(n)) ?? Number.NaN,
    ),
  ),
  ...values.map(([n, t, ev]) =>
    printed(`3 EV f/${n} 1/${t}`, `exposure value of f/${n} at 1/${t} s`, APEX, ev, () =>
      exposureValue(n, 1 / t),
    ),
  ),
  printed("3 Av 5.6", "aperture value of 5.6", APEX, 4.97085, () => apertureValue(5.6)),
  printed("3 Av 11", "aperture value of 11", APEX, 6.91886, () => apertureValue(11)),
  printed("3 Tv 1/64", "time value of 1/64 s", APEX, 6, () => timeValue(1 / 64)),
  printed("3 Sv 100", "speed value of ISO 100", APEX, 5, () => speedValue(100)),
  printed("3 DIN 100", "ISO 100 on the logarithmic scale", APEX, 21, () => dinSpeed(100)),
  printed("3 DIN 400", "ISO 400 on the logarithmic scale", APEX, 27.0206, () => dinSpeed(400)),
];
