import { describe, expect, test } from "vitest";
import { KINDS, readShelf, STARTER_SHELF } from "../gear/index.ts";
import {
  bearingText,
  parseBearing,
  parseMaybe,
  parseMaybeWeight,
  parsePixels,
  parseTime,
  pixelsText,
  timeText,
} from "./gear-entries.ts";
import { withNewPiece } from "./gear-usual.ts";
import { pieceLine, weightText } from "./gear-words.ts";

describe("[AP141] a thing in a line", () => {
  test("what it is, in the units in use", () => {
    const [head] = STARTER_SHELF.heads;
    const [box] = STARTER_SHELF.modifiers;
    const [stand] = STARTER_SHELF.stands;
    if (head === undefined || box === undefined || stand === undefined) throw new Error("nothing to tell of");
    expect(pieceLine("heads", { ...head, recycle: null }, "metric")).toBe(
      "400 Ws, in stops, 6.0 stops down to the least, ready after a time not known",
    );
    const lost = { stops: 1, from: "measured" as const };
    expect(pieceLine("modifiers", { ...box, loss: lost }, "feet")).toBe(
      "octagon 3′ 11¼″, 120°, takes 1.0 stop, measured",
    );
    expect(pieceLine("stands", { ...stand, isWheeled: true }, "metric")).toBe("0.60 m to 2.80 m, on wheels");
  });

  test.each([
    [2.6, 1, "2.6 kg"],
    [10, 3, "3 × 10 kg"],
    [null, 1, "not weighed"],
    [null, 2, "2, not weighed"],
  ])("%s kg, %i of it: %s", (mass, count, text) => expect(weightText(mass, count, "metric")).toBe(text));

  test("no line of any kind is empty but that of other things, nor says what it does not know as a number", () => {
    for (const kind of KINDS) {
      if (kind === "others") continue;
      for (const piece of STARTER_SHELF[kind]) {
        const line = pieceLine(kind, piece as never, "metric");
        expect(line).not.toMatch(/^$|NaN|undefined|null|object/);
      }
    }
  });
});

describe("[AP142] a new thing", () => {
  test.each(KINDS)("of %s makes a sound shelf, twice, and is marked typical", (kind) => {
    const once = readShelf(withNewPiece(STARTER_SHELF, kind));
    if (!once.ok) throw new Error(JSON.stringify(once.problems));
    const twice = readShelf(withNewPiece(once.shelf, kind));
    if (!twice.ok) throw new Error(JSON.stringify(twice.problems));
    expect(twice.shelf[kind]).toHaveLength(STARTER_SHELF[kind].length + 2);
    expect(twice.shelf[kind].at(-1)?.isTypical).toBe(true);
  });
});

describe("[AP150] what may not be known", () => {
  test.each(["", "?", "not known", "Unknown"])("“%s” is not known", (typed) => {
    expect(parseMaybe(typed, "s")).toEqual({ ok: true, value: null });
    expect(parseMaybeWeight(typed, "feet")).toEqual({ ok: true, value: null });
    expect(parseBearing(typed)).toEqual({ ok: true, value: null });
    expect(parsePixels(typed)).toEqual({ ok: true, value: null });
    expect(parseTime(typed)).toEqual({ ok: true, value: null });
  });

  test("what is shown is read back as the same", () => {
    const pixels = { width: 8256, height: 5504 };
    expect(parsePixels(pixelsText(pixels))).toEqual({ ok: true, value: pixels });
    expect(parseMaybe("1,2 s", "s")).toEqual({ ok: true, value: 1.2 });
    expect(parseMaybeWeight("4,2 kg", "feet")).toEqual({ ok: true, value: 4.2 });
    expect(parseMaybeWeight("10", "feet")).toEqual({ ok: true, value: 4.535924 });
    expect(parseBearing(bearingText(-45.5))).toEqual({ ok: true, value: -45.5 });
    expect(parseBearing(bearingText(null))).toEqual({ ok: true, value: null });
    expect(parsePixels("8256x5504")).toEqual({ ok: true, value: pixels });
    expect(parseTime(timeText(1 / 200))).toEqual({ ok: true, value: 1 / 200 });
    expect(parsePixels(pixelsText(null))).toEqual({ ok: true, value: null });
    expect(parseTime(timeText(null))).toEqual({ ok: true, value: null });
  });

  test("what is neither is refused with an example", () => {
    expect(parseMaybe("slow", "s")).toMatchObject({ ok: false, why: expect.stringMatching(/1\.5 s/) });
    const why = (typed: string, units: "metric" | "feet") => parseMaybeWeight(typed, units);
    expect(why("heavy", "metric")).toMatchObject({
      ok: false,
      why: expect.stringMatching(/2\.6 kg or 5\.7 lb/),
    });
    expect(why("500", "feet")).toMatchObject({
      ok: false,
      why: "“500” is not from 0 to 440.9 lb: weigh it again.",
    });
    expect(why("-1", "metric")).toMatchObject({
      ok: false,
      why: "“-1” is not from 0 to 200 kg: weigh it again.",
    });
    expect(parsePixels("many")).toMatchObject({ ok: false, why: expect.stringMatching(/8256 × 5504/) });
    expect(parseTime("fast")).toMatchObject({ ok: false, why: expect.stringMatching(/1\/160/) });
  });
});
