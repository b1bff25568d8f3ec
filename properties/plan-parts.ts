/** Random numbers, words and fronts that plans and briefs are made of. */
import fc from "fast-check";

const DECIMALS = 1e6;
/** Numbers as files hold them: six decimals, no -0. */
export const number = (min: number, max: number) =>
  fc
    .double({ min, max, noNaN: true })
    .map((v) => Math.min(max, Math.max(min, Math.round(v * DECIMALS) / DECIMALS)) + 0);

const RESERVED = ["ambient", "all"];
export const word = fc.stringMatching(/^[a-z][a-zäöü '-]{0,12}$/).filter((w) => !RESERVED.includes(w));
export const part = <T>(value: fc.Arbitrary<T>) => fc.option(value, { nil: undefined });

export const face = fc.oneof(
  fc.record({ shape: fc.constant("disc"), width: number(0.001, 5) }),
  fc.record({ shape: fc.constant("rectangle"), width: number(0.001, 5), height: number(0.001, 5) }),
  fc.record({
    shape: fc.constant("polygon"),
    sides: fc.integer({ min: 3, max: 64 }),
    width: number(0.001, 5),
  }),
  fc.constant({ shape: "point" }),
);
