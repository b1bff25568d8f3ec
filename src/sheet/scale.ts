/** Round drawing scales, and rulers that count whole metres or feet. */
import { type LengthUnits, METRES_PER_INCH } from "../units/index.ts";

const ROUND = [1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 7.5, 8] as const;
/** An inch and its halves down to a sixteenth stand for a foot; beyond that, an inch for tens of feet. */
const IN_FEET = [
  12, 16, 24, 32, 48, 64, 96, 120, 192, 240, 360, 480, 600, 720, 960, 1200, 2400, 4800, 6000, 12000, 24000,
];

/** The largest round scale (1 : n, n returned) at which so many metres fit on so many millimetres, for each pair. */
export function roundScale(fits: readonly { metres: number; mm: number }[], units: LengthUnits): number {
  const least = Math.max(...fits.map((f) => (1000 * f.metres) / f.mm), 1);
  if (units === "feet") {
    const scale = IN_FEET.find((n) => n >= least - 1e-9);
    if (scale !== undefined) return scale;
  }
  const power = 10 ** Math.floor(Math.log10(least) + 1e-9);
  const mantissa = ROUND.find((m) => m * power >= least - 1e-9);
  return mantissa === undefined ? 10 * power : Math.round(mantissa * power * 100) / 100;
}

/** The largest scale that fits, and smaller ones down to a share of it. */
export function roundScales(
  fits: readonly { metres: number; mm: number }[],
  units: LengthUnits,
  share: number,
): number[] {
  const scales = [roundScale(fits, units)];
  for (let scale = scales[0]; ; ) {
    scale = roundScale([{ metres: (scale * (1 + 1e-6)) / 1000, mm: 1 }], units);
    if (scale * share > scales[0]) return scales;
    scales.push(scale);
  }
}

export function unitLength(units: LengthUnits): number {
  return units === "feet" ? 12 * METRES_PER_INCH : 1;
}

/** Whole metres or feet, thinned until their numbers stand clear: values in that unit. */
export function rulerMarks(from_m: number, to_m: number, mmPerMetre: number, units: LengthUnits): number[] {
  const unit = unitLength(units);
  const apart = 7;
  let step = 1;
  for (const next of [2, 5, 10, 20, 50, 100, 200, 500, 1000])
    if (step * unit * mmPerMetre < apart) step = next;
  const marks: number[] = [];
  const last = Math.floor(to_m / unit + 1e-9);
  for (let k = Math.ceil(from_m / unit / step - 1e-9) * step; k <= last; k += step) marks.push(k + 0);
  return marks;
}
