import { describe, expect, it } from "vitest";
import type { FindAnswer, SetUp, WishMet } from "../finder/index.ts";
import { KITS } from "../gear/index.ts";
import { emptyBrief } from "../plan/index.ts";
import {
  answerWords,
  holdsLine,
  holdWords,
  PATTERN_LOOKS,
  PATTERNS,
  ratioNumbers,
  triedWords,
  wantLine,
  wishLine,
} from "./find-words.ts";

const { want } = emptyBrief();
const answer = (...met: boolean[]): FindAnswer => ({
  format: "tapemark/found",
  version: 1,
  isMet: met.includes(true),
  tried: 10,
  setUps: met.map((isMet) => ({ isMet }) as SetUp),
  relax: null,
});

describe("[AP84] a brief is said in a line", () => {
  it("only what is asked; nothing where all is free", () => {
    expect(wantLine(want)).toBeNull();
    expect(
      wantLine({
        ...want,
        pattern: "rembrandt",
        litSide: "left",
        side: "short",
        ratioStops: { from: 1.2, to: 1.7 },
        backgroundStops: { from: null, to: -2 },
        catchlight: { clock: 1.5, within: 0.5 },
      }),
    ).toBe(
      "Rembrandt, own left lit, short; ratio 1.2 to 1.7 stops; background at most −2 stops; catchlight 1:30 ± 0:30",
    );
  });
  it("a ratio in stops is a number to one as well", () => {
    expect(ratioNumbers({ from: 1, to: 2 })).toBe("2.0 to 4.0 : 1, lit over shadow");
    expect(ratioNumbers({ from: 1, to: null })).toBe("at least 2.0 : 1");
    expect(ratioNumbers({ from: 2, to: 5 })).toBe("4.0 to 32 : 1, lit over shadow");
    expect(ratioNumbers(null)).toBe("lit cheek over shadow cheek");
  });
  it("every pattern that can be asked for says what its shadows do", () => {
    for (const pattern of PATTERNS) expect(PATTERN_LOOKS[pattern].length).toBeGreaterThan(5);
    expect(holdsLine(KITS[0].gear)).toBe("400 Ws; octa 120, dish 55; V-flat leaf, white");
  });
});

describe("[AP85] an answer is said as state, margin, why", () => {
  it("how many fit, and how many only come near", () => {
    expect(answerWords(answer(true, true))).toBe("2 set-ups fit");
    expect(answerWords(answer(true, false))).toBe("1 set-up fits; 1 more comes near");
    expect(answerWords(answer(true, true, false, false))).toBe("2 set-ups fit; 2 more come near");
    expect(answerWords(answer(false, false, false))).toBe("Nothing fits; the nearest 3");
    expect(answerWords(answer())).toBe("Nothing was found");
  });
  it("a wish that is met tells its margin, one that is missed what was asked, in the tape that is used", () => {
    const wish: WishMet = {
      wish: "clearance",
      isMet: true,
      asked: "5 cm",
      got: "kept",
      margin: 0.14,
      marginWords: "14 cm",
      why: null,
    };
    expect(wishLine(wish, "metric")).toBe("14 cm to spare");
    expect(wishLine(wish, "feet")).toBe("5½″ to spare");
    expect(wishLine({ ...wish, isMet: false }, "metric")).toBe("asked 5 cm; 14 cm outside");
    expect(wishLine({ ...wish, marginWords: "" }, "metric")).toBe("");
    expect(wishLine({ ...wish, marginWords: "0.0 stop", isMet: false }, "metric")).toBe(
      "asked 5 cm; just outside",
    );
    expect(wishLine({ ...wish, marginWords: "0.0 stop" }, "metric")).toBe("just met");
  });
  it("the circle is rounded down and never called safe", () => {
    const hold = { circle: { x: 0, y: 0, radius_m: 0.279 } } as Parameters<typeof holdWords>[0];
    expect(holdWords(hold, "metric")).toBe("hold zone: a circle of 27 cm radius fits");
    expect(holdWords(hold, "feet")).toBe("hold zone: a circle of 10¾″ radius fits");
    expect(holdWords(null, "metric")).toBe("");
  });
  it("large counts are parted in threes", () => {
    expect(triedWords(62445)).toBe("62\u202f445 tried");
  });
});
