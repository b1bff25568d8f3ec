/** CIE 171:2006 case 5.8: a closed cube, 10,000 lm isotropic at the centre. */
import type { Check } from "./checks.ts";
import { meanIndirect } from "./cube.ts";

const SOURCE =
  "CIE 171:2006 case 5.8, mean indirect illuminance Phi rho / (S (1 - rho)), exact for the area mean";
const rows: [number, number][] = [
  [0.05, 5.48246],
  [0.1, 11.5741],
  [0.2, 26.0417],
  [0.3, 44.6429],
  [0.5, 104.167],
  [0.7, 243.056],
  [0.8, 416.667],
  [0.9, 937.5],
];

export const checks: Check[] = rows.map(([rho, published]) => ({
  id: `7 5.8 ${rho}`,
  what: `mean indirect illuminance in a 4 m cube, reflectance ${rho}, lx`,
  source: SOURCE,
  published,
  ours: () => meanIndirect(rho),
  tolerance: 0.02,
  why: "interreflection is asked to 2 %",
}));
