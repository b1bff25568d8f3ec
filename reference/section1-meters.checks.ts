/** Exposure meters and flash meters. */
import {
  domeResponse,
  ev100OfIlluminance,
  ev100OfLuminance,
  flatResponse,
  illuminanceOfEv100,
  incidentFNumber,
  luminanceOfEv100,
  METER_CONSTANT,
  meteredReflectance,
  mixedExposure,
  REFLECTED_CONSTANT,
} from "../src/photometry/index.ts";
import { type Check, printed, RADIANS } from "./checks.ts";

const SOURCE =
  "ISO 2720:1974 and ISO 10157:1991, N = sqrt(H S / C); values computed from the equations to six figures";
const CARDIOID = "cardioid response (1 + cos a) / 2, ideal receptor of ISO 2720 (from memory, verified)";
const { flat, dome } = METER_CONSTANT;

/** lx.s at ISO 100, f-number flat, f-number dome */
const readings: [number, number, number][] = [
  [2.5, 1, 0.857493],
  [10, 2, 1.71499],
  [50, 4.47214, 3.83482],
  [160, 8, 6.85994],
  [500, 14.1421, 12.1268],
];
/** degrees, dome response, the same in stops */
const angles: [number, number, number][] = [
  [0, 1, 0],
  [45, 0.853553, -0.228447],
  [60, 0.75, -0.415037],
  [90, 0.5, -1],
  [120, 0.25, -2],
  [135, 0.146447, -2.77155],
];
/** shutter 1/n, f-number, share of ambient in per cent: 160 lx.s of flash in 500 lx */
const mixes: [number, number, number][] = [
  [60, 8.20569, 4.9505],
  [125, 8.09938, 2.43902],
  [200, 8.06226, 1.53846],
];
/** K, C, per cent */
const reflectances: [number, number, number][] = [
  [12.5, 250, 15.708],
  [12.5, 340, 11.55],
  [14, 250, 17.5929],
  [14, 340, 12.936],
];

export const checks: Check[] = [
  ...readings.flatMap(([h, onFlat, onDome]) => [
    printed(`1 flat ${h}`, `f-number of ${h} lx·s at ISO 100, flat`, SOURCE, onFlat, () =>
      incidentFNumber(h, 100, flat),
    ),
    printed(`1 dome ${h}`, `f-number of ${h} lx·s at ISO 100, dome`, SOURCE, onDome, () =>
      incidentFNumber(h, 100, dome),
    ),
  ]),
  printed("1 steady a", "f-number of 500 lx, 1/125 s, ISO 100", SOURCE, 1.26491, () =>
    incidentFNumber(500 / 125, 100, flat),
  ),
  printed("1 steady b", "f-number of 500 lx, 1/60 s, ISO 400", SOURCE, 3.65148, () =>
    incidentFNumber(500 / 60, 400, flat),
  ),
  printed("1 EV flat", "EV100 of 1000 lx, C = 250", SOURCE, 8.64386, () => ev100OfIlluminance(1000, flat)),
  printed("1 EV dome", "EV100 of 1000 lx, C = 340", SOURCE, 8.20025, () => ev100OfIlluminance(1000, dome)),
  printed("1 EV K12.5", "EV100 of 1000 cd/m², K = 12.5", SOURCE, 12.9658, () => ev100OfLuminance(1000)),
  printed("1 EV K14", "EV100 of 1000 cd/m², K = 14", SOURCE, 12.8023, () => ev100OfLuminance(1000, 14)),
  printed("1 lux EV0", "illuminance of EV 0, C = 250", SOURCE, 2.5, () => illuminanceOfEv100(0, flat)),
  printed("1 cd EV0", "luminance of EV 0, K = 12.5", SOURCE, 0.125, () => luminanceOfEv100(0)),
  printed(
    "1 dome over flat",
    "stops between a dome and a flat receptor, frontal light",
    SOURCE,
    0.443607,
    () => Math.log2((incidentFNumber(160, 100, flat) / incidentFNumber(160, 100, dome)) ** 2),
  ),
  printed(
    "1 K14 over K12.5",
    "stops between K = 14 and K = 12.5",
    SOURCE,
    0.163499,
    () => ev100OfLuminance(1000, REFLECTED_CONSTANT) - ev100OfLuminance(1000, 14),
  ),
  ...reflectances.map(([k, c, percent]) =>
    printed(
      `1 reflectance ${k},${c}`,
      `metered reflectance π K / C, K ${k}, C ${c}, %`,
      SOURCE,
      percent,
      () => 100 * meteredReflectance(k, c),
    ),
  ),
  ...mixes.flatMap(([n, fNumber, percent]) => [
    printed(`1 mix 1/${n}`, `f-number of 160 lx·s of flash and 500 lx for 1/${n} s`, SOURCE, fNumber, () =>
      incidentFNumber(mixedExposure(160, 500, 1 / n), 100, flat),
    ),
    printed(
      `1 ambient share 1/${n}`,
      `share of the ambient light in it, %`,
      SOURCE,
      percent,
      () => 100 * (1 - 160 / mixedExposure(160, 500, 1 / n)),
    ),
  ]),
  ...angles.flatMap(([angle, response, stops]) => [
    printed(
      `1 dome ${angle}°`,
      `response of a dome to light ${angle}° off its axis`,
      CARDIOID,
      response,
      () => domeResponse(angle * RADIANS),
    ),
    printed(`1 dome stops ${angle}°`, `the same in stops, ${angle}°`, CARDIOID, stops, () =>
      Math.log2(domeResponse(angle * RADIANS)),
    ),
  ]),
  printed("1 flat 60°", "response of a flat receptor to light 60° off its axis", "cosine law", 0.5, () =>
    flatResponse(60 * RADIANS),
  ),
  printed("1 flat 120°", "response of a flat receptor to light from behind", "cosine law", 0, () =>
    flatResponse(120 * RADIANS),
  ),
];
