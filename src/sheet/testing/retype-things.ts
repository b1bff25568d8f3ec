/** What stands in one row of a sheet, or behind one name in its last paragraph, as fields of a plan file. */
import { exponentOfAngle, readPower } from "../../plan/index.ts";
import { type LengthUnits, parseFStops, parseLength } from "../../units/index.ts";

export const NUMBER = "(-?[\\d.]+)";

export interface Row {
  readonly name: string;
  /** by column: about, floor, height, nose, from, aim, power */
  readonly cells: readonly string[];
}

/** "bearing 315°, 34° down roll 15°" */
export function aimOf(words: string) {
  const [bearing] = numbers(words, `bearing ${NUMBER}°`);
  const tilt = /([\d.]+)° (up|down)/.exec(words);
  const roll = /roll (−?)([\d.]+)°/.exec(words);
  return {
    direction: { bearing, tilt: tilt === null ? 0 : (tilt[2] === "up" ? 1 : -1) * Number(tilt[1]) },
    roll: roll === null ? 0 : (roll[1] === "" ? 1 : -1) * Number(roll[2]),
  };
}

export function headOf(words: string) {
  const way = (pattern: RegExp, plus: string) => {
    const found = pattern.exec(words);
    return found === null ? 0 : (found[2] === plus ? 1 : -1) * Number(found[1]);
  };
  return {
    follows: words.includes("nose to the camera") ? "camera" : "nothing",
    turn: way(/head ([\d.]+)° to own (left|right)/, "left"),
    tip: way(/chin ([\d.]+)° (up|down)/, "up"),
    tilt: way(/([\d.]+)° toward own (left|right)/, "left"),
  };
}

function shareOf(words: string): number | number[] {
  const shares = words
    .replace(/ ?%.*$/, "")
    .split("/")
    .map((share) => Number(share) / 100);
  return shares.length === 1 ? shares[0] : shares;
}

export function roomOf(words: string) {
  const share = (name: string) => shareOf(new RegExp(`${name} ([\\d./]+) %`).exec(words)?.[1] ?? "");
  const isEven = words.includes("walls ");
  const wall = (name: string) => share(isEven ? "walls" : `${name} wall`);
  const measured = /to return ([−+]?)([\d.]+) stops/.exec(words);
  return {
    reflectance: {
      floor: share("floor"),
      ceiling: share("ceiling"),
      near: wall("near"),
      far: wall("far"),
      left: wall("left"),
      right: wall("right"),
    },
    bounce: !words.includes("bounce left out"),
    ...(measured === null
      ? {}
      : {
          calibration: {
            bounceStops: (measured[1] === "−" ? -1 : 1) * Number(measured[2]),
            uncertaintyStops: 0.2,
          },
        }),
  };
}

export function lightOf({ name, cells }: Row, aimed: object, more: string, units: LengthUnits) {
  const [about, , , , , , power] = cells;
  const length = (text: string) => parseLength(text.trim(), units);
  const kelvin = numbers(more, `${NUMBER} K`)[0];
  const angle = numbers(more, `beam ${NUMBER}°`);
  const file = /beam by the file (\S+?),/.exec(more);
  const measured = /measured ([−+]?)([\d.]+) stops/.exec(more);
  const gel = /gel passes ([\d/]+) %/.exec(about);
  return {
    name,
    ...aimed,
    on: !power.startsWith("off"),
    face: frontOf(about, length),
    beam: {
      ...(file === null ? { exponent: exponentOfAngle(angle[0]) } : { photometry: file[1] }),
      edgeDrop: numbers(more, `rim ${NUMBER} stops`)[0] ?? 0,
    },
    output: outputOf(power, more, length),
    kelvin,
    ...(gel === null ? {} : { gel: { rgb: shareOf(gel[1]) } }),
    ...(measured === null
      ? {}
      : {
          calibration: {
            stops: (measured[1] === "−" ? -1 : 1) * Number(measured[2]),
            uncertaintyStops: 0.2,
          },
        }),
  };
}

const SIDES: Readonly<Record<string, number>> = {
  triangle: 3,
  square: 4,
  pentagon: 5,
  hexagon: 6,
  octagon: 8,
};

function frontOf(words: string, length: (text: string) => number) {
  if (words.startsWith("bare point")) return { shape: "point" };
  const [first, second = ""] = words.split(", ");
  if (first === "round") return { shape: "disc", width: length(second) };
  const sides = SIDES[first] ?? Number(/^(\d+) sides$/.exec(first)?.[1]);
  if (sides > 0) return { shape: "polygon", sides, width: length(second) };
  const [width, height] = first.split(" × ").map(length);
  return { shape: "rectangle", width, height };
}

function outputOf(words: string, more: string, length: (text: string) => number) {
  const power = words.replace(/^off /, "").replace(/ alone .*$/, "");
  const down = (text: string, full_Ws: number | null) =>
    text.startsWith("full")
      ? 0
      : (readPower(text.replace(/^at /, ""), { marked: "stops" }, full_Ws) ?? Number.NaN);
  const flash = /^([\d.]+) Ws, (.+)$/.exec(power);
  if (flash !== null) {
    const [lumensPerWatt] = numbers(more, `${NUMBER} lm/W`);
    const [share] = numbers(more, `${NUMBER} % of it`);
    const full_Ws = Number(flash[1]);
    return {
      wattSeconds: full_Ws,
      lumensPerWatt,
      efficiency: share / 100,
      stopsDown: down(flash[2], full_Ws),
    };
  }
  const guide = /^guide number ([\d.]+) (m|ft) at ISO (\d+), (.+)$/.exec(power);
  if (guide !== null) {
    const metres = Number(guide[1]) * (guide[2] === "ft" ? 0.3048 : 1);
    return { guideNumber: metres, iso: Number(guide[3]), stopsDown: down(guide[4], null) };
  }
  const energy = /^([\d.]+) lm·s$/.exec(power);
  if (energy !== null) return { lumenSeconds: Number(energy[1]) };
  const meter = /^set by meter: (f\/\S+ \+ 0\.\d) at (.+) on its axis, (flat|dome), ISO (\d+)$/.exec(power);
  if (meter === null) throw new Error(`no power can be read from “${power}”`);
  const [, stop, distance, receptor, iso] = meter;
  return { meter: { fNumber: parseFStops(stop), iso: Number(iso), distance: length(distance), receptor } };
}

export function backdropOf(
  { name, cells }: Row,
  position: [number, number],
  more: string,
  length: (text: string) => number,
) {
  const [sweep, floor] = /^curve (.+), then (.+) of floor$/.exec(cells[6])?.slice(1) ?? [];
  return {
    kind: name,
    position,
    width: length(cells[0].replace(/ wide$/, "")),
    top: length(cells[2].replace(/ top$/, "")),
    sweepRadius: length(sweep),
    floorLength: length(floor),
    bearing: numbers(cells[5], `faces bearing ${NUMBER}°`)[0],
    reflectance: shareOf(more.replace(/^gives back /, "")),
  };
}

/** "1.20 m × 2.40 m, 4 % back, 30 % through" */
export function boardOf(words: string, length: (text: string) => number) {
  const [size, back, through] = words.split(", ");
  const [width, height] = size.split(" × ").map(length);
  return {
    width,
    height,
    reflectance: shareOf(back),
    ...(through === undefined ? {} : { transmittance: shareOf(through) }),
  };
}

export function looksOf(words: string, length: (text: string) => number) {
  const parts = words.split(", ");
  const found = (pattern: RegExp) => parts.map((part) => pattern.exec(part)).find((match) => match !== null);
  const eyes = found(/^eyes (.+) high$/);
  const hair = found(/^(short|shoulder) hair (.+)$/);
  const skin = found(/^skin (.+)$/)?.[1] ?? "";
  const lab = /^L\*a\*b\* (.+)$/.exec(skin);
  const size = found(/^head larger than ([\d.]+) in 100$/);
  const shine = found(/^shine ([\d.]+)$/);
  const rough = found(/^roughness ([\d.]+)$/);
  const lens =
    /glasses ([\d.]+) × ([\d.]+) mm, tilt ([\d.]+)°, wrap ([\d.]+)°, ([\d.]+) dioptres, (\w+)/.exec(words);
  const reflectance =
    lab !== null
      ? { lab: lab[1].split("/").map(Number) }
      : skin.includes("%")
        ? shareOf(skin)
        : { tone: skin };
  return {
    stature: length(found(/^(.+) tall$/)?.[1] ?? ""),
    ...(eyes === undefined ? {} : { eyeHeight: length(eyes[1]) }),
    ...(size === undefined ? {} : { headSize: Number(size[1]) }),
    ...(hair === undefined ? {} : { hair: { length: hair[1], reflectance: shareOf(hair[2]) } }),
    ...(lens === null
      ? {}
      : {
          glasses: {
            lensWidth: Number(lens[1]) / 1000,
            lensHeight: Number(lens[2]) / 1000,
            tilt: Number(lens[3]),
            wrap: Number(lens[4]),
            curve: Number(lens[5]),
            coated: lens[6] === "coated",
          },
        }),
    skin: {
      reflectance,
      ...(shine === undefined ? {} : { shine: Number(shine[1]) }),
      ...(rough === undefined ? {} : { roughness: Number(rough[1]) }),
    },
    clothing: { reflectance: shareOf(found(/^clothes (.+)$/)?.[1] ?? "") },
  };
}

export function numbers(words: string, pattern: string): number[] {
  return (new RegExp(pattern).exec(words)?.slice(1) ?? []).map(Number);
}
