import {
  domeResponse,
  ev100OfIlluminance,
  ev100OfLuminance,
  incidentFNumber,
  METER_CONSTANT,
} from "../src/photometry/index.ts";
import { type Check, PRINTED } from "./checks.ts";

const SOURCE =
  "ISO 2720:1974 and ISO 10157:1991, N = sqrt(H S / C); values computed from the equations to six figures";
const readings: [number, number, number][] = [
  [2.5, 1, 0.857493],
  [10, 2, 1.71499],
  [50, 4.47214, 3.83482],
  [160, 8, 6.85994],
  [500, 14.1421, 12.1268],
];
const dome: [number, number][] = [
  [0, 1],
  [45, 0.853553],
  [60, 0.75],
  [90, 0.5],
  [120, 0.25],
  [135, 0.146447],
];

export const checks: Check[] = [
  ...readings.flatMap(([h, flat, round]) => [
    {
      id: `1 flat ${h}`,
      what: `f-number of ${h} lx·s at ISO 100, flat`,
      source: SOURCE,
      published: flat,
      ours: () => incidentFNumber(h, 100, METER_CONSTANT.flat),
      ...PRINTED,
    },
    {
      id: `1 dome ${h}`,
      what: `f-number of ${h} lx·s at ISO 100, dome`,
      source: SOURCE,
      published: round,
      ours: () => incidentFNumber(h, 100, METER_CONSTANT.dome),
      ...PRINTED,
    },
  ]),
  ...dome.map(([angle, response]) => ({
    id: `1 dome ${angle}°`,
    what: `response of a dome to light ${angle}° off its axis`,
    source: "cardioid response (1 + cos a) / 2, ideal receptor of ISO 2720 (from memory, verified)",
    published: response,
    ours: () => domeResponse((angle * Math.PI) / 180),
    ...PRINTED,
  })),
  {
    id: "1 EV lux",
    what: "EV100 of 1000 lx, C = 250",
    source: SOURCE,
    published: 8.64386,
    ours: () => ev100OfIlluminance(1000, 250),
    ...PRINTED,
  },
  {
    id: "1 EV cd",
    what: "EV100 of 1000 cd/m², K = 12.5",
    source: SOURCE,
    published: 12.9658,
    ours: () => ev100OfLuminance(1000, 12.5),
    ...PRINTED,
  },
  {
    id: "1 mix",
    what: "f-number of 160 lx·s of flash and 500 lx for 1/60 s",
    source: "flash meters integrate both: N = sqrt((H + E t) S / C)",
    published: 8.20569,
    ours: () => incidentFNumber(160 + 500 / 60, 100, METER_CONSTANT.flat),
    ...PRINTED,
  },
];
