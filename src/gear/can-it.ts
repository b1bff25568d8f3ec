/** "Can it do that?": one light of a plan against its dial, its charging, its flash and the shutter. */
import { type Light, outsideDial, type Plan, writePower } from "../plan/index.ts";
import { lengthsIn } from "../units/index.ts";
import { waysBrighter } from "./can-brighter.ts";
import { sharpWords } from "./can-camera.ts";
import { waysDarker } from "./can-darker.ts";
import { durationRow, recycleRow, syncRow } from "./can-times.ts";
import type { CanAsk, CanItDo, CanRow } from "./can-types.ts";
import { stopsText } from "./words.ts";

/** What is asked of a light, and what can be done where it cannot.
 * Domain  index: of a light of the plan
 * Units   stops and tenths, lengths in the units asked for
 * Errors  none
 * Source  dial: closed form; distance: the front's exposure on its axis; what else is taken is said where it stands */
export function canItDo(plan: Plan, index: number, ask: CanAsk): CanItDo {
  const light = plan.lights[index];
  const wanted = wantedDown(light, ask.stopsMore ?? 0);
  const outside = wanted === null ? 0 : outsideDial(wanted, light.dial);
  const rows = [
    powerRow(plan, light, ask, wanted, outside),
    recycleRow(plan, light, wanted),
    durationRow(plan, light, ask),
    syncRow(plan, light, ask),
  ];
  const said = (text: string) => lengthsIn(text, ask.units);
  return {
    light: index,
    name: light.name,
    stopsDown: wanted,
    outside,
    rows: rows.map((row) => ({
      ...row,
      sentence: said(row.sentence),
      ways: row.ways.map((way) => ({ ...way, what: said(way.what), effect: said(way.effect) })),
    })),
  };
}

/** How many more stops the set-up needs for the camera's aperture, of what a meter reads there at the camera's speed.
 * @example camera at f/2, meter f/8 -> -4 */
export function stopsForCamera({ camera }: Pick<Plan, "camera">, reads_fNumber: number): number {
  return 2 * Math.log2(camera.fNumber / reads_fNumber);
}

function wantedDown({ output }: Light, stopsMore: number): number | null {
  return "stopsDown" in output ? output.stopsDown - stopsMore : null;
}

function powerRow(plan: Plan, light: Light, ask: CanAsk, wanted: number | null, outside: number): CanRow {
  const about = "power";
  if (wanted === null)
    return {
      about,
      word: "no dial known",
      sentence: "its output is a number of its own: put a head of the shelf on it, or tell its watt-seconds",
      ways: [],
    };
  const { dial, output } = light;
  const full_Ws = "wattSeconds" in output ? output.wattSeconds : null;
  const mark = (down: number) => writePower(down, dial, full_Ws);
  if (outside === 0) {
    const [more, less] = [wanted, dial.range - wanted].map((left) => stopsText(Math.max(0, left)));
    const sentence = `${mark(wanted)} is wanted; the dial has ${more} more and ${less} less`;
    return { about, word: "within its dial", sentence, ways: [] };
  }
  const by = Math.abs(outside);
  if (outside > 0) {
    const sentence = `at full it gives ${stopsText(by)} less than is wanted`;
    return { about, word: "too weak at full", sentence, ways: waysBrighter(plan, light, by, ask) };
  }
  // the wide aperture that makes it too bright is what it is wanted for
  const sharp = sharpWords(plan, plan.camera.fNumber);
  const sentence = `at ${mark(dial.range)}, its least, it gives ${stopsText(by)} more than is wanted${sharp}`;
  return { about, word: "too bright at its least", sentence, ways: waysDarker(plan, light, by, ask) };
}
