import { describe, expect, it } from "vitest";
import { KITS } from "../gear/index.ts";
import { askedRoom, CONTRASTS, FIRST_ANSWERS, LOOKS } from "./start-looks.ts";
import { USUAL_ROOM } from "./start-room.ts";

describe("[AP87] three answers make a question", () => {
  it("every look, contrast and kit makes a plan with its brief, somebody in it and no light", () => {
    for (const look of LOOKS)
      for (const { name, ratioStops } of CONTRASTS)
        for (const kit of KITS) {
          const asked = askedRoom(USUAL_ROOM, { look, side: "right", contrast: name, kit: kit.name });
          if (!asked.ok) throw new Error(`${look}, ${name}, ${kit.name}`);
          const { brief, lights, people } = asked.plan;
          expect([lights.length, people.length]).toEqual([0, 1]);
          expect(brief?.want).toMatchObject({ pattern: look, ratioStops, crop: "head and shoulders" });
          expect(brief?.gear).toEqual(kit.gear);
        }
  });
  it("a look that is the same on both sides asks for no lit side", () => {
    const sideOf = (look: (typeof LOOKS)[number], side: "left" | "either") => {
      const asked = askedRoom(USUAL_ROOM, { ...FIRST_ANSWERS, look, side });
      return asked.ok && asked.plan.brief?.want.litSide;
    };
    expect([sideOf("loop", "left"), sideOf("loop", "either"), sideOf("butterfly", "left")]).toEqual([
      "left",
      null,
      null,
    ]);
  });
  it("the ranges of contrast join: every ratio up to the strongest has a name", () => {
    const spans = CONTRASTS.flatMap(({ ratioStops }) => ratioStops ?? []);
    spans.slice(1).forEach((span, i) => {
      expect(span.from).toBe(spans[i]?.to);
    });
    expect(spans[0]?.from).toBe(0);
  });
  it("a room that cannot be is refused with its reason", () => {
    expect(askedRoom({ ...USUAL_ROOM, height: 1.5 }, FIRST_ANSWERS).ok).toBe(false);
  });
});
