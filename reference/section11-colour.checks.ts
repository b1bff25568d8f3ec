import { encodeSrgb, miredShift, planckianXy } from "../src/photometry/index.ts";
import { type Check, PRINTED } from "./checks.ts";

const planckian: [number, number, number][] = [
  [2700, 0.459863, 0.4106],
  [3200, 0.423363, 0.398953],
  [4000, 0.380442, 0.376749],
  [5000, 0.345103, 0.35161],
  [5600, 0.3302, 0.339081],
  [6500, 0.313528, 0.32363],
];
const srgb: [number, number][] = [
  [0.01, 0.0998528],
  [0.18, 0.461356],
  [0.72, 0.865042],
];

export const checks: Check[] = [
  ...planckian.flatMap(([k, x, y]) =>
    [x, y].map((published, axis) => ({
      id: `11 planckian ${k} ${axis ? "y" : "x"}`,
      what: `chromaticity ${axis ? "y" : "x"} of a Planckian radiator at ${k} K`,
      source: "Planck's law with the CIE 1931 observer",
      published,
      ours: () => planckianXy(k)[axis],
      tolerance: 0.003,
      why: "a cubic fit; 0.003 is a third of the just-noticeable step of a light's colour",
    })),
  ),
  ...srgb.map(([linear, published]) => ({
    id: `11 sRGB ${linear}`,
    what: `sRGB encoding of ${linear}`,
    source: "IEC 61966-2-1",
    published,
    ours: () => encodeSrgb(linear),
    ...PRINTED,
  })),
  {
    id: "11 mired",
    what: "mired shift from 3200 K to 5600 K",
    source: "CIE: 10^6 / T",
    published: -133.929,
    ours: () => miredShift(3200, 5600),
    ...PRINTED,
  },
];
