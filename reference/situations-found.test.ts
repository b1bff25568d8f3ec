/** What the finder offers in situations of the trade; invented, the sums by hand (docs/spec/situations.md). */
import { describe, expect, it } from "vitest";
import { bundled } from "../scripts/bundled.mjs";

/** As users get it: what is loaded file by file is three times as slow. */
const work = (): Promise<typeof import("./situations-work.ts")> => bundled("reference/situations-work.ts");

/** A search and its tracing, on one thread of a busy machine. */
const LONG_MS = 120_000;

describe("[SI1] a ceiling at 2.4 m, an octagon 0.9 m across at 1.2 m, 5 cm of air", () => {
  it("leaves 15° to somebody whose face is 1.60 m up, and 43° at 1.20 m: 1.2 sin e + 0.45 cos e = 2.35 − height", async () => {
    const { steepest } = await work();
    // places are told in centimetres: half a degree at 1.2 m
    expect(Math.abs(steepest(1.6, 2.4) - 15.3)).toBeLessThan(0.5);
    expect(Math.abs(steepest(1.2, 2.4) - 43.2)).toBeLessThan(0.5);
  });

  it(
    "is answered with somebody seated as well",
    async () => {
      const { setUps } = await (await work()).lowCeiling();
      const seated = setUps.find(({ kind }) => kind === "seated");
      expect(seated?.isMet).toBe(true);
      expect(seated?.plan.people[0].pose).toBe("seated");
    },
    LONG_MS,
  );
});

it(
  "[SI12] a white room that leaves two stops of three: the black panel is what reaches them",
  async () => {
    const { setUps } = await (await work()).whiteRoom();
    const [first] = setUps.filter(({ isMet }) => isMet);
    expect(first?.kind).toBe("one light and a black panel");
    expect(setUps.some(({ kind, isMet }) => kind === "one light" && isMet)).toBe(false);
  },
  LONG_MS,
);

it(
  "[SI5] two rows that are to be within a third of a stop: a feathered light and one backed off are offered, and are",
  async () => {
    const { setUps } = await (await work()).twoRows();
    const kinds = setUps.filter(({ isMet }) => isMet).map(({ kind }) => kind);
    expect(kinds).toContain("feathered");
    expect(kinds).toContain("backed off");
    for (const { isMet, reading } of setUps) {
      const spread = Math.log2(Math.max(...reading.litCheeks) / Math.min(...reading.litCheeks));
      if (isMet) expect(spread).toBeLessThanOrEqual(0.34 + 1e-6);
    }
  },
  LONG_MS,
);
