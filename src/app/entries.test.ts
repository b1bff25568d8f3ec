import { describe, expect, it } from "vitest";
import { parseFNumber } from "./entries.ts";

const value = (text: string) => {
  const parsed = parseFNumber(text);
  return parsed.ok ? parsed.value : Number.NaN;
};

describe("[AP57] a typed f-stop that two people read two ways asks which is meant", () => {
  it.each(["8.4", "f/8.4", "F 8,4", "8.40"])("%s asks", (text) => {
    const parsed = parseFNumber(text);
    if (parsed.ok || parsed.meanings === undefined) throw new Error("no question");
    const [stop, number] = parsed.meanings;
    // f/8 + 0.4 is 2^(6.4 / 2)
    expect(stop?.value).toBeCloseTo(9.18959, 5);
    expect(number).toMatchObject({ value: 8.4, text: expect.stringContaining("that is f/8 + 0.1") });
  });
  it.each([
    ["11.3", "f/11 + 0.3", "f-number 11.3, that is f/11 + 0.0"],
    ["1.3", "f/1 + 0.3", "f-number 1.3, that is f/1 + 0.8"],
    ["8.45", "f/8 + 0.45", "f-number 8.45, that is f/8 + 0.2"],
  ])("%s asks: %s or %s", (text, stop, number) => {
    const parsed = parseFNumber(text);
    expect(parsed).toMatchObject({ ok: false, meanings: [{ text: stop }, { text: number }] });
  });
  it.each([
    ["8", 8],
    ["8.0", 8],
    ["11.0", 2 ** 3.5],
    ["f/5.6", 2 ** 2.5],
    ["f/8 + 0.4", 2 ** 3.2],
    ["6.3", 2 ** (16 / 6)],
    ["2,8", 2 ** 1.5],
    ["9", 2 ** (19 / 6)],
  ])("%s is a mark", (text, fNumber) => expect(value(text)).toBeCloseTo(fNumber, 9));
  it.each([
    ["7", 7],
    ["6.4", 6.4],
    ["9.5", 9.5],
  ])("%s can only be the f-number: no engraved stop stands before the point", (text, fNumber) =>
    expect(value(text)).toBe(fNumber),
  );
  it.each(["", "wide", "f/", "0", "8 + 2", "8..4"])("%j is refused, with what would do", (text) => {
    const parsed = parseFNumber(text);
    expect(parsed).toMatchObject({ ok: false, why: expect.stringContaining("f/8 + 0.4") });
    expect(parsed).not.toHaveProperty("meanings");
  });
});
