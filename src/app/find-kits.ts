/** One thing more on hand, of the usual kind, under a name that is free. */
import { USUAL_FRONT, USUAL_LIGHT, USUAL_PANEL } from "../gear/index.ts";
import type { GearFront, GearLight, GearPanel } from "../plan/index.ts";
import { freeName } from "./adding.ts";

export function usualLight(taken: readonly string[]): GearLight {
  return { ...USUAL_LIGHT, name: freeName("head", taken) };
}

export function usualPanel(taken: readonly string[]): GearPanel {
  return { ...USUAL_PANEL, name: freeName("board", taken) };
}

export function usualFront(taken: readonly string[]): GearFront {
  return { ...USUAL_FRONT, name: freeName("front", taken) };
}
