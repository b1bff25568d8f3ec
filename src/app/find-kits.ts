/** Gear to begin with, as many have it (common practice, no source): heads with what goes on them, boards. */
import type { Gear, GearFront, GearLight, GearPanel } from "../plan/index.ts";
import { freeName } from "./adding.ts";

const DIFFUSED = { exponent: 1, edgeDrop: 0 };

/** A metre and a fifth across the flats, its diffuser in front. */
const OCTA: GearFront = {
  name: "octa 120",
  face: { shape: "polygon", sides: 8, width: 1.2 },
  beam: DIFFUSED,
  stopsLost: 0,
};

const DISH: GearFront = {
  name: "dish 55",
  face: { shape: "disc", width: 0.55 },
  beam: { exponent: 2, edgeDrop: 0 },
  stopsLost: 0,
};

const STRIP: GearFront = {
  name: "strip 30 × 120",
  face: { shape: "rectangle", width: 0.3, height: 1.2 },
  beam: DIFFUSED,
  stopsLost: 0,
};

const UMBRELLA: GearFront = {
  name: "umbrella 100",
  face: { shape: "disc", width: 1 },
  beam: DIFFUSED,
  stopsLost: 0,
};

function head(name: string, wattSeconds: number, fronts: readonly [GearFront, ...GearFront[]]): GearLight {
  return {
    name,
    full: { wattSeconds, lumensPerWatt: 35, efficiency: 0.55 },
    dial: { marked: "stops", range: 6, step: 0.1 },
    kelvin: 5600,
    fronts: [...fronts],
    stand: { lowest: 0.6, highest: 2.8, boom: 0 },
  };
}

const board = (name: string, reflectance: number): GearPanel => ({ name, width: 1, height: 2, reflectance });
const WHITE = 0.85;
const BLACK = 0.04;

export interface Kit {
  readonly name: string;
  /** what is in it, as a line under its name */
  readonly holds: string;
  readonly gear: Gear;
}

export const KITS: readonly [Kit, ...Kit[]] = [
  {
    name: "one head and a white board",
    holds: "400 Ws; octa 120 or dish 55; board 1 × 2 m",
    gear: { lights: [head("key", 400, [OCTA, DISH])], panels: [board("white board", WHITE)] },
  },
  {
    name: "two heads and two boards",
    holds: "400 Ws each; octa 120, dish 55, strip 30 × 120; a white and a black board",
    gear: {
      lights: [head("key", 400, [OCTA, DISH]), head("second", 400, [STRIP, OCTA])],
      panels: [board("white board", WHITE), board("black board", BLACK)],
    },
  },
  {
    name: "one small flash",
    holds: "60 Ws; umbrella 100; nothing else",
    gear: { lights: [head("flash", 60, [UMBRELLA])], panels: [] },
  },
];

export function usualLight(taken: readonly string[]): GearLight {
  return head(freeName("head", taken), 400, [OCTA]);
}

export function usualPanel(taken: readonly string[]): GearPanel {
  return board(freeName("board", taken), WHITE);
}

export function usualFront(taken: readonly string[]): GearFront {
  return { ...DISH, name: freeName("front", taken) };
}
