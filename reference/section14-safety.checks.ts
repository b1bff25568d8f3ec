/** A stand with an arm, circuits and packs, as worked through in section 14 of the published list. */
import type { Support } from "../src/plan/index.ts";
import {
  CONTINUOUS,
  counterweightToBalance,
  heldAgainst_A,
  meanWatts,
  momentsOf,
  type Off,
  sidePush,
  tippingLine,
  type Way,
} from "../src/safety/index.ts";
import { WORKED as stand } from "../src/safety/testing/supports.ts";
import { type Check, printed } from "./checks.ts";

const TIPPING = "moments about a stand's tipping line (worked example, section 14)";
const NEC = "NEC 210.19(A), 210.20(A): at least 125 % of a continuous load";
const PACK = "energy / (recycle · efficiency), power factor 1 (section 14)";

const bagged: Support = { ...stand, bag: 10 };

function holdsTimes(support: Support, way: Way, off: Off = {}): number {
  const { holding_Nm, turning_Nm } = momentsOf(support, way, off);
  return holding_Nm / turning_Nm;
}

/** id, what, printed, ours */
const tipping: [string, string, number, () => number][] = [
  ["line 3", "tipping line of 3 legs of 1 m, m", 0.5, () => tippingLine(1, 3)],
  // biome-ignore lint/suspicious/noApproximativeNumericConstant: as it is printed
  ["line 4", "tipping line of 4 legs of 1 m, m", 0.707107, () => tippingLine(1, 4)],
  ["line 5", "tipping line of 5 legs of 1 m, m", 0.809017, () => tippingLine(1, 5)],
  ["line 0.55", "tipping line of 3 legs of 0.55 m, m", 0.275, () => tippingLine(0.55, 3)],
  ["holding", "what holds the stand, N·m", 49.401, () => momentsOf(stand, "load").holding_Nm],
  ["turning", "what turns it over, N·m", 27.2135, () => momentsOf(stand, "load").turning_Nm],
  ["factor", "times as much holds", 1.81532, () => holdsTimes(stand, "load")],
  ["factor bag", "times as much holds, bag of 10 kg", 2.80631, () => holdsTimes(bagged, "load")],
  [
    "factor bare",
    "times as much holds, no counterweight, no bag",
    0.396396,
    () => holdsTimes(bagged, "load", { bag: true, counterweight: true }),
  ],
  ["reverse", "load off", 0.752137, () => holdsTimes(stand, "counterweight", { load: true })],
  [
    "reverse bag",
    "load off, bag of 10 kg",
    2.63248,
    () => holdsTimes(bagged, "counterweight", { load: true }),
  ],
  ["balance", "counterweight that balances, kg", 6, () => counterweightToBalance(stand) ?? Number.NaN],
  ["push", "side push at 2.4 m that tips 7 kg, N", 7.86575, () => sidePush({ ...stand, arm: null }, 2.4)],
];

/** A, V; A and W that may be drawn for hours */
const circuits: [number, number, number, number][] = [
  [15, 120, 12, 1440],
  [20, 120, 16, 1920],
  [13, 230, 10.4, 2392],
  [16, 230, 12.8, 2944],
];

/** Ws, s, share stored; W */
const packs: [number, number, number, number][] = [
  [600, 1, 1, 600],
  [1200, 1.5, 1, 800],
  [600, 1, 0.8, 750],
];

export const checks: Check[] = [
  ...tipping.map(([id, what, value, ours]) => printed(`14 ${id}`, what, TIPPING, value, ours)),
  printed("14 NEC 16 A", "breaker that 16 A for hours ask for, A", NEC, 20, () => 16 * CONTINUOUS),
  ...circuits.flatMap(([amps, volts, held, watts]) => {
    const ours = () => heldAgainst_A({ amps, feeds: "hours" });
    return [
      printed(`14 ${amps} A ${volts} V held`, `${amps} A at ${volts} V for hours, A`, NEC, held, ours),
      printed(
        `14 ${amps} A ${volts} V watts`,
        `${amps} A at ${volts} V for hours, W`,
        NEC,
        watts,
        () => ours() * volts,
      ),
    ];
  }),
  ...packs.map(([energy, every, stored, watts]) =>
    printed(
      `14 pack ${energy} Ws ${every} s ${stored}`,
      `${energy} Ws every ${every} s, ${100 * stored} % stored, W`,
      PACK,
      watts,
      () => meanWatts(energy, every, stored),
    ),
  ),
  ...(
    [
      [120, 6.66667],
      [230, 3.47826],
    ] as const
  ).map(([volts, amps]) =>
    printed(
      `14 pack at ${volts} V`,
      `1200 Ws every 1.5 s at ${volts} V, A`,
      PACK,
      amps,
      () => meanWatts(1200, 1.5) / volts,
    ),
  ),
];
