/** A quantity outside what it may be: names it, its value, its unit and the allowed range. */
export class QuantityError extends Error {
  constructor(
    readonly quantity: string,
    readonly value: unknown,
    readonly unit: string,
    readonly allowed: string,
  ) {
    super(`${`${quantity}: ${String(value)} ${unit}`.trimEnd()} is not allowed; give ${allowed}`);
    this.name = "QuantityError";
  }
}

/** The value itself where it is finite and above 0; QuantityError otherwise. */
export function positive(quantity: string, value: number, unit: string): number {
  if (value > 0 && value < Number.POSITIVE_INFINITY) return value;
  throw new QuantityError(quantity, value, unit, "a number above 0");
}

/** The value itself where it is finite and not below 0; QuantityError otherwise. */
export function nonNegative(quantity: string, value: number, unit: string): number {
  if (value >= 0 && value < Number.POSITIVE_INFINITY) return value;
  throw new QuantityError(quantity, value, unit, "a number from 0 upward");
}
