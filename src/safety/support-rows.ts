/** Sums of weights for each stand and arm of a plan. */
import type { Plan, Support } from "../plan/index.ts";
import {
  formatForce,
  formatLength,
  formatMoment,
  formatWeight,
  GRAVITY,
  type LengthUnits,
} from "../units/index.ts";
import { bagToLevel, counterweightToBalance, momentsOf, type Off, sidePush, type Way } from "./tipping.ts";
import type { SafetyRow, SafetySum } from "./types.ts";
import { listed, supportWords } from "./words.ts";

/** A support of the plan and what it carries. */
export interface Supported {
  readonly owner: string;
  readonly name: string;
  readonly support: Support;
  /** of the load's middle above the floor */
  readonly height_m: number;
  /** whose mark its foot would stand on, were it under its load; null where there is room for it */
  readonly onMarkOf: string | null;
}

/** Under this many times as much it is called close (common practice, no source). */
const CLOSE = 1.5;
/** Nearer to balance than this nobody feels it on an arm (a guess), kg. */
const BALANCED_KG = 0.1;
/** Nearer to a mark no stand has room: who stands there is half a shoulder wide, and it a foot of its own (common practice,
 * no source), metres. */
const BESIDE_MARK_M = 0.4;

export function supportsOf(plan: Plan): Supported[] {
  const of = (list: "lights" | "panels") =>
    plan[list].flatMap(({ name, position, support }, i): Supported[] => {
      if (support === null) return [];
      const onMark = plan.people.find(
        ({ position: [x, y] }) => Math.hypot(position[0] - x, position[1] - y) < BESIDE_MARK_M,
      );
      return [
        {
          owner: `${list}[${i}]`,
          name,
          support,
          height_m: position[2],
          onMarkOf: support.arm === null ? (onMark?.name ?? null) : null,
        },
      ];
    });
  return [...of("lights"), ...of("panels")];
}

export function supportRows(plan: Plan, units: LengthUnits): SafetyRow[] {
  const rows = supportsOf(plan).map((one) => supportRow(one, units));
  const unweighed = [...plan.lights, ...plan.panels].filter(({ support }) => support === null);
  if (unweighed.length === 0) return rows;
  return [
    ...rows,
    {
      kind: "support",
      owner: null,
      heading: "Not weighed",
      about: `${listed(unweighed.map(({ name }) => name))}: no sum can be made.`,
      sums: [],
      asks: [
        "weigh the head with its front, or the panel; weigh the stand; weigh its bag",
        "measure from the column to the tip of a leg, and an arm's two ends from the column",
      ],
    },
  ];
}

export function supportRow(
  { owner, name, support, height_m, onMarkOf }: Supported,
  units: LengthUnits,
): SafetyRow {
  const ways = support.legUnderLoad ? "" : " The legs are taken as they stand worst.";
  return {
    kind: "support",
    owner,
    heading: name,
    about: `${supportWords(support, units)}. Bag taken at the column.${ways}`,
    sums: [
      ...tippingSums(support, units),
      ...balanceSums(support, units),
      ...pushSums(support, height_m, units),
    ],
    asks: [
      ...(onMarkOf === null
        ? []
        : [`no arm is given, though its foot cannot stand at ${onMarkOf}'s mark: measure the arm`]),
      ...asksOf(support),
    ],
  };
}

/** One sum about the legs: which way, and what is not on it. */
export interface TippingCase {
  readonly what: string;
  readonly way: Way;
  readonly off: Off;
}

/** Everything that is worth setting against everything else: as planned, and with each thing off that can come off. */
export function casesOf(support: Support): TippingCase[] {
  const { arm, bag, legUnderLoad } = support;
  if (arm === null) return [];
  const towards = (what: string, off: Off): TippingCase => ({ what, way: "load", off });
  const back = (what: string, off: Off): TippingCase => ({ what, way: "counterweight", off });
  const hasBag = bag > 0;
  const hasCounter = arm.counterweight > 0;
  const balance = counterweightToBalance(support);
  const goesBack = balance !== null && arm.counterweight - balance >= BALANCED_KG;
  return [
    towards("everything on", {}),
    ...(goesBack ? [back("everything on, towards the counterweight", {})] : []),
    ...(legUnderLoad ? [towards("arm swung between two legs", { leg: true })] : []),
    ...(hasBag ? [towards("without the bag", { bag: true })] : []),
    ...(hasCounter ? [towards("without the counterweight", { counterweight: true })] : []),
    ...(hasCounter && hasBag
      ? [towards("without counterweight and bag", { counterweight: true, bag: true })]
      : []),
    ...(hasCounter ? [back("load off", { load: true })] : []),
    ...(hasCounter && hasBag ? [back("load off, without the bag", { load: true, bag: true })] : []),
  ];
}

function tippingSums(support: Support, units: LengthUnits): SafetySum[] {
  return casesOf(support).map(({ what, way, off }) => {
    const { turning_Nm, holding_Nm } = momentsOf(support, way, off);
    return {
      what,
      left: formatMoment(turning_Nm, units),
      right: formatMoment(holding_Nm, units),
      word: tippingWord(turning_Nm, holding_Nm, way, off),
      isOver: turning_Nm > 0 && holding_Nm <= turning_Nm,
    };
  });
}

/** By word, and never a word that lets it pass: what is heavier, and how much. */
export function tippingWord(turning_Nm: number, holding_Nm: number, way: Way, off: Off = {}): string {
  const who = way === "counterweight" ? "counterweight" : off.load ? "arm" : "load";
  if (turning_Nm === 0) return `the ${who} hangs between the feet`;
  if (holding_Nm <= turning_Nm) return `the ${who} turns it over`;
  const times = holding_Nm / turning_Nm;
  // 1.49 must not read as the 1.5 that it is not
  const said = `${(Math.floor(10 * times + 1e-9) / 10).toFixed(1)} times as much holds`;
  return times < CLOSE ? `close: ${said}` : said;
}

function balanceSums(support: Support, units: LengthUnits): SafetySum[] {
  const { arm, bag } = support;
  const weight = (kg: number) => formatWeight(kg, units, "sum");
  if (arm === null) return [];
  const least = bagToLevel(support);
  const balance = counterweightToBalance(support);
  const sums: SafetySum[] = [
    {
      what: "bag",
      left: `${weight(least)} to stand level, load on or off`,
      right: `${weight(bag)} on it`,
      word: bagWord(bag, least, weight),
      isOver: bag < least,
    },
  ];
  if (balance === null) return sums;
  const over = arm.counterweight - balance;
  const word =
    Math.abs(over) < BALANCED_KG
      ? "the arm is balanced"
      : `${weight(Math.abs(over))} too ${over < 0 ? "little" : "much"}: the ${over < 0 ? "load" : "counterweight"} pulls`;
  return [
    ...sums,
    {
      what: "counterweight",
      left: `${weight(balance)} balances load and arm`,
      right: `${weight(arm.counterweight)} on it`,
      word,
      isOver: false,
    },
  ];
}

function bagWord(bag: number, least: number, weight: (kg: number) => string): string {
  if (bag === 0) return least === 0 ? "no bag on it" : "no bag on it: it turns over";
  if (bag < least) return `${weight(least - bag)} too little: it turns over`;
  return `${weight(bag - least)} more than that`;
}

function pushSums(support: Support, height_m: number, units: LengthUnits): SafetySum[] {
  if (!(height_m > 0)) return [];
  const at = formatLength(height_m, units);
  const sum = (what: string, off: Off): SafetySum => {
    const push_N = sidePush(support, height_m, off);
    const moment = formatMoment(push_N * height_m, units);
    return {
      what,
      left: `${moment} (${formatForce(push_N, units)} × ${at})`,
      right: `${moment} of its weight`,
      word:
        push_N === 0
          ? "it tips by itself"
          : `a push as strong as ${formatWeight(push_N / GRAVITY, units, "sum")} weighs tips it`,
      isOver: push_N === 0,
    };
  };
  return [
    sum("pushed at the load", {}),
    ...(support.bag > 0 ? [sum("pushed, without the bag", { bag: true })] : []),
  ];
}

function asksOf({ arm, bag, isWheeled }: Support): string[] {
  return [
    ...(bag === 0 ? ["no bag is given: hang one, and weigh it"] : []),
    ...(arm !== null && arm.mass === 0 ? ["the arm itself is not weighed"] : []),
    ...(arm !== null && arm.counterReach > 0 && arm.counterweight === 0 ? ["no counterweight is given"] : []),
    ...(arm !== null && arm.counterReach === 0 && arm.counterweight > 0
      ? ["how far out the counterweight hangs is not given"]
      : []),
    ...(isWheeled ? ["wheels: lock them; pushed, it rolls before it tips, and tips where it catches"] : []),
  ];
}
