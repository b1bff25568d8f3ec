import { describe, expect, it } from "vitest";
import { bundled } from "../scripts/bundled.mjs";
import { amount } from "./amount.ts";

/** As users get it: what is loaded file by file is three times as slow. */
const work = (): Promise<typeof import("./quick-agreement-work.ts")> =>
  bundled("properties/quick-agreement-work.ts");

/** Shares of few set-ups are rounded up to a whole one. */
describe("the quick set against the full transport", () => {
  it("[QF8] 500 set-ups in the dark, nothing between: cheeks within 0.1 stop in 99 %, the pattern alike in 97 %", async () => {
    const count = amount(500);
    const { apart, other } = (await work()).compare("dark", count, 0.1);
    expect(apart.length, apart.join("; ")).toBeLessThanOrEqual(Math.ceil(0.01 * count));
    expect(other.length, other.join("; ")).toBeLessThanOrEqual(Math.ceil(0.03 * count));
  }, 900_000);

  it("[QF9] 200 white rooms: cheeks within 0.2 stop in 95 %, the pattern alike in 85 %", async () => {
    const count = amount(200);
    const { apart, other } = (await work()).compare("white room", count, 0.2);
    expect(apart.length, apart.join("; ")).toBeLessThanOrEqual(Math.ceil(0.05 * count));
    expect(other.length, other.join("; ")).toBeLessThanOrEqual(Math.ceil(0.15 * count));
  }, 1_200_000);
});
