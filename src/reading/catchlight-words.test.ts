import { describe, expect, it } from "vitest";
import { catchlightWords, clockWords } from "./catchlight-words.ts";
import type { Catchlight } from "./types.ts";

function seen(change: Partial<Catchlight>): Catchlight {
  return {
    eye: "left",
    light: "key",
    kind: "light",
    clock: 1.4,
    visible: true,
    widthMillimetres: 2.06,
    heightMillimetres: 2.12,
    widthPixels: 17.6,
    heightPixels: 18.1,
    outline: [],
    ...change,
  };
}

describe("[CT9] catchlights are told by the clock and by size", () => {
  it("both eyes alike, one alone, and each for itself", () => {
    const right = { eye: "right" } as const;
    expect(catchlightWords([seen({}), seen(right)])).toBe(
      "key at 1:30 in both eyes, 2.1 mm across (18 px in 4000)",
    );
    expect(catchlightWords([seen({})])).toBe(
      "key at 1:30 in the left eye only, 2.1 mm across (18 px in 4000)",
    );
    expect(catchlightWords([seen({}), seen({ ...right, clock: 2.1 })])).toBe(
      "key at 1:30 left, 2:00 right, 2.1 mm across (18 px in 4000)",
    );
  });

  it("a strip has two sides, a bare bulb none; what is faint comes last, without a size", () => {
    expect(catchlightWords([seen({ widthMillimetres: 0.52, widthPixels: 4.44 })])).toBe(
      "key at 1:30 in the left eye only, 0.5 by 2.1 mm (4.4 by 18 px in 4000)",
    );
    expect(catchlightWords([seen({ widthMillimetres: 0, heightMillimetres: 0 })])).toBe(
      "key at 1:30 in the left eye only, a point",
    );
    expect(catchlightWords([seen({ kind: "wall", light: "floor", clock: 5.9 }), seen({})])).toBe(
      "key at 1:30 in the left eye only, 2.1 mm across (18 px in 4000); faint: floor at 6:00 in the left eye only",
    );
  });

  it("walls all round are named without their places", () => {
    const walls = ["floor", "ceiling", "near wall"].map((light) => seen({ kind: "wall", light }));
    expect(catchlightWords(walls)).toBe("no light in either eye; faint: floor, ceiling, near wall");
  });

  it("nothing that is hidden is named", () => {
    expect(catchlightWords([seen({ visible: false })])).toBe("no light in either eye");
  });

  it("half hours, twelve on top", () => {
    expect([0.1, 0.3, 11.8, 12, 6.2].map(clockWords)).toEqual(["12:00", "12:30", "12:00", "12:00", "6:00"]);
  });
});
