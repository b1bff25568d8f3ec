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
