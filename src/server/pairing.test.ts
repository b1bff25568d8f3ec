import { timingSafeEqual } from "node:crypto";
import { describe, expect, it } from "vitest";
import { CODE_LIVES_MS, MOST_WRONG, PairingCode } from "./pairing-code.ts";
import { MOST_TRIES, PairingLimits } from "./pairing-limits.ts";

function clock() {
  const time = { now_ms: 1_000_000, elapsed_ms: 0 };
  return { time, now: () => new Date(time.now_ms), elapsed_ms: () => time.elapsed_ms };
}
const digitsOf = (code: PairingCode) => code.shown()?.digits ?? "none";
const wrong = (digits: string) => digits.replace(/\d$/, (last) => String((Number(last) + 1) % 10));

describe("[SR5] the code", () => {
  it("is six digits, another each time, and counts once", () => {
    const code = new PairingCode(clock());
    expect(code.shown()).toBeNull();
    const seen = new Set<string>();
    for (let i = 0; i < 50; i++) {
      code.make();
      seen.add(digitsOf(code));
      expect(digitsOf(code)).toMatch(/^\d{6}$/);
    }
    expect(seen.size).toBeGreaterThan(45);
    const digits = digitsOf(code);
    expect(code.enter(digits)).toBe(true);
    expect(code.shown()).toBeNull();
    expect(code.enter(digits)).toBe(false);
  });
  it("is over after five wrong tries, also for who knows it", () => {
    const code = new PairingCode(clock());
    code.make();
    const digits = digitsOf(code);
    for (let i = 0; i < MOST_WRONG; i++) expect(code.enter(wrong(digits))).toBe(false);
    expect(code.shown()).toBeNull();
    expect(code.enter(digits)).toBe(false);
  });
  it("a new one ends the one before", () => {
    const code = new PairingCode(clock());
    code.make();
    const digits = digitsOf(code);
    do code.make();
    while (digitsOf(code) === digits);
    expect(code.enter(digits)).toBe(false);
  });
});

describe("[SR6] five minutes by either clock", () => {
  it.each([
    ["both go on", CODE_LIVES_MS, CODE_LIVES_MS],
    ["the clock is set back a day", CODE_LIVES_MS, -86_400_000],
    ["the machine slept", 1000, CODE_LIVES_MS],
  ])("%s: it is too old", (_, elapsed, passed) => {
    const around = clock();
    const code = new PairingCode(around);
    code.make();
    const digits = digitsOf(code);
    around.time.elapsed_ms += elapsed - 1;
    around.time.now_ms += passed - 1;
    expect(digitsOf(code)).toBe(digits);
    around.time.elapsed_ms += 1;
    around.time.now_ms += 1;
    expect(code.enter(digits)).toBe(false);
    expect(code.shown()).toBeNull();
  });
});

it("[SR7] each try is one comparison of two digests, whatever is typed and whether there is a code", () => {
  const seen: number[][] = [];
  const around = clock();
  const code = new PairingCode(around, (a, b) => {
    seen.push([a.length, b.length]);
    return timingSafeEqual(a, b);
  });
  code.enter("123456");
  code.make();
  const digits = digitsOf(code);
  for (const typed of [wrong(digits), `9${digits}`, "", digits, digits]) code.enter(typed);
  expect(seen).toEqual(Array.from({ length: 6 }, () => [32, 32]));
});

describe("[SR8] tries are counted", () => {
  it("each wrong one of an address doubles its wait, a right one ends it", () => {
    const { time, elapsed_ms } = clock();
    const limits = new PairingLimits(elapsed_ms);
    const waits: number[] = [];
    for (let i = 0; i < 8; i++) {
      limits.tried("10.0.0.9", false);
      const wait = limits.wait_ms("10.0.0.9");
      waits.push(wait);
      time.elapsed_ms += wait;
    }
    expect(waits.map((ms) => ms / 1000)).toEqual([1, 2, 4, 8, 16, 32, 60, 60]);
    expect(limits.wait_ms("10.0.0.10")).toBe(0);
    limits.tried("10.0.0.9", true);
    limits.tried("10.0.0.9", false);
    expect(limits.wait_ms("10.0.0.9")).toBe(1000);
  });
  it("all addresses together have so many a minute", () => {
    const { time, elapsed_ms } = clock();
    const limits = new PairingLimits(elapsed_ms);
    for (let i = 0; i < MOST_TRIES; i++) limits.tried(`10.0.1.${i}`, false);
    expect(limits.wait_ms("10.0.2.1")).toBe(60_000);
    time.elapsed_ms += 60_000;
    expect(limits.wait_ms("10.0.2.1")).toBe(0);
  });
});
