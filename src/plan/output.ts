/** The ways in which a plan gives what a light puts out: how they are scaled, and turned into one another. */
import type { Output } from "./schema.ts";

export type OutputForm = "wattSeconds" | "lumenSeconds" | "meter" | "guideNumber";

export function formOf(output: Output): OutputForm {
  if ("wattSeconds" in output) return "wattSeconds";
  if ("lumenSeconds" in output) return "lumenSeconds";
  return "meter" in output ? "meter" : "guideNumber";
}

/** The same light with so many times the energy. A head is turned up or down at its dial; whether the dial reaches so
 * far is told by `stopsDown`: below 0 is over full power.
 * Domain  factor above 0 */
export function scaledOutput(output: Output, factor: number): Output {
  if ("lumenSeconds" in output) return { lumenSeconds: output.lumenSeconds * factor };
  if ("stopsDown" in output) return { ...output, stopsDown: output.stopsDown - Math.log2(factor) };
  return { meter: { ...output.meter, fNumber: output.meter.fNumber * Math.sqrt(factor) } };
}

/** Full powers that heads are made in, watt-seconds (common practice, no source). */
const HEADS_WS = [100, 200, 250, 400, 500, 600, 800, 1000, 1200, 1600, 2400, 3200, 4800];
const MOST_STOPS_DOWN = 20;
/** What a head gives until it is calibrated; the defaults of the format. */
const GUESSED = { lumensPerWatt: 35, efficiency: 0.55 };
const ISO = 100;

/** The same light said another way; null where that way cannot say it (nothing has no reading on a meter).
 * A dial stays where it is from watt-seconds to a guide number and back; from other forms a head of a usual size is
 * taken and turned down.
 * Units   `energyOf` gives the lm.s of an output on this light's front and beam; distance_m where a meter is held
 * Accuracy lm.s equal to 1e-9 before the file's six decimals, 1e-6 after (f-numbers and guide numbers above 2) */
export function outputAs(
  form: OutputForm,
  output: Output,
  energyOf: (output: Output) => number,
  distance_m: number,
): Output | null {
  if (formOf(output) === form) return output;
  const energy = energyOf(output);
  const stopsDown = "stopsDown" in output ? output.stopsDown : null;
  switch (form) {
    case "lumenSeconds":
      return { lumenSeconds: energy };
    case "wattSeconds":
      return headOf(energy, stopsDown);
    case "guideNumber": {
      const each = energyOf({ guideNumber: 1, iso: ISO, stopsDown: 0 });
      const guideNumber = Math.sqrt((energy * 2 ** (stopsDown ?? 0)) / each);
      return guideNumber > 0 && Number.isFinite(guideNumber)
        ? { guideNumber, iso: ISO, stopsDown: stopsDown ?? 0 }
        : null;
    }
    case "meter": {
      const at = { iso: ISO, distance: distance_m, receptor: "flat" as const };
      const fNumber = Math.sqrt(energy / energyOf({ meter: { ...at, fNumber: 1 } }));
      return fNumber > 0 && Number.isFinite(fNumber) ? { meter: { ...at, fNumber } } : null;
    }
  }
}

function headOf(energy: number, stopsDown: number | null): Output {
  const { lumensPerWatt, efficiency } = GUESSED;
  const wanted = energy / (lumensPerWatt * efficiency);
  if (stopsDown !== null) return { wattSeconds: wanted * 2 ** stopsDown, ...GUESSED, stopsDown };
  const head = HEADS_WS.find((ws) => ws >= wanted);
  const down = head === undefined ? 0 : Math.log2(head / wanted);
  // more than a dial is known to go, and nothing at all, stand as they are
  if (head === undefined || !(down <= MOST_STOPS_DOWN))
    return { wattSeconds: wanted, ...GUESSED, stopsDown: 0 };
  return { wattSeconds: head, ...GUESSED, stopsDown: down };
}
