import { type LengthUnits, METRES_PER_INCH } from "../units/index.ts";

export interface RulerMark {
  readonly at_m: number;
  readonly text: string;
}

/** Steps that a tape has: parts of a metre, and inches, then whole metres and feet. */
const METRIC_STEPS_M = [0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100];
const INCH_STEPS = [1, 2, 3, 6, 12, 24, 60, 120, 240, 600, 1200, 3600];
/** Between two numbers, pixels: whole ones are short, those with a part of a metre or inches are not. */
const APART_PX = 26;
const APART_LONG_PX = 38;

/** Where the ruler has its marks: the finest of the steps whose numbers stand clear of each other. */
export function rulerMarks(from_m: number, to_m: number, units: LengthUnits, scale: number): RulerMark[] {
  const isMetric = units === "metric";
  const unit = isMetric ? 1 : 12 * METRES_PER_INCH;
  const steps = isMetric ? METRIC_STEPS_M : INCH_STEPS.map((inches) => inches * METRES_PER_INCH);
  const isWhole = (step: number) => step > unit * 0.999;
  const step =
    steps.find((each) => each * scale >= (isWhole(each) ? APART_PX : APART_LONG_PX)) ?? steps.at(-1) ?? unit;
  const marks: RulerMark[] = [];
  const last = Math.floor(to_m / step + 1e-9);
  for (let k = Math.ceil(from_m / step - 1e-9); k <= last; k++) {
    const at_m = k * step;
    marks.push({
      at_m,
      text: isWhole(step) ? `${Math.round(at_m / unit) + 0}` : partText(at_m, step, isMetric),
    });
  }
  return marks;
}

/** As a tape is printed: metres with their parts; feet, and the inches between them. */
function partText(at_m: number, step_m: number, isMetric: boolean): string {
  if (isMetric) return at_m.toFixed(step_m < 0.0999 ? 2 : 1).replace(/^-(?=0\.?0*$)/, "");
  const inches = Math.round(at_m / METRES_PER_INCH);
  return inches % 12 === 0 ? `${inches / 12}′` : `${((inches % 12) + 12) % 12}″`;
}
