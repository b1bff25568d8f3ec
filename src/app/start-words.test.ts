import { describe, expect, it } from "vitest";
import cellistFile from "../../examples/cellist.json";
import { checkPlan, newPlan, type Plan } from "../plan/index.ts";
import { beginRoom, USUAL_ROOM } from "./start-room.ts";
import { contentsLine, titleAndLine, whenText } from "./start-words.ts";

const plain = (text: string) => text.replaceAll("\u00a0", " ");
function cellist(): Plan {
  const checked = checkPlan(cellistFile);
  if (!checked.ok) throw new Error("the example is broken");
  return checked.plan;
}

describe("[AP62] a plan is said in a line", () => {
  it("what stands in it, and how large the room is, in either units", () => {
    const words = "1 light, 1 person, 1 panel, paper; ";
    expect(plain(contentsLine(cellist(), "metric"))).toBe(`${words}room 7.00 × 9.00 m`);
    expect(plain(contentsLine(cellist(), "feet"))).toBe(`${words}room 22′ 11½″ × 29′ 6¼″`);
    expect(plain(contentsLine({ ...newPlan(), room: null }, "metric"))).toBe("nothing yet; open space");
  });
  it("a title of two parts is a title and its line", () => {
    expect(titleAndLine("Split, from the manual: half of the face lit")).toEqual([
      "Split, from the manual",
      "half of the face lit",
    ]);
    expect(titleAndLine("Quartet")).toEqual(["Quartet", null]);
  });
  it("today and yesterday by the clock here, earlier by the day; nothing where nobody knows", () => {
    const now = new Date(2026, 10, 25, 22, 0);
    const at = (...parts: [number, number, number, number, number]) =>
      whenText(new Date(...parts).toISOString(), now);
    expect(at(2026, 10, 25, 0, 5)).toBe("today 00:05");
    expect(at(2026, 10, 24, 23, 59)).toBe("yesterday 23:59");
    expect(at(2026, 10, 3, 12, 0)).toBe("3 Nov 2026");
    expect(whenText("1970-01-01T00:00:00.000Z", now)).toBe("");
  });
});

describe("[AP62] a new room begins empty or with a first set-up", () => {
  it("of any size that a plan takes, with everything inside", () => {
    for (const size of [
      USUAL_ROOM,
      { width: 2, depth: 2, height: 2.1 },
      { width: 40, depth: 60, height: 9 },
    ]) {
      const furnished = beginRoom(size, true);
      expect(furnished.ok && [furnished.plan.lights.length, furnished.plan.people.length]).toEqual([1, 1]);
    }
    const empty = beginRoom(USUAL_ROOM, false);
    expect(empty.ok && [empty.plan.lights, empty.plan.people, empty.plan.room?.width]).toEqual([[], [], 5]);
  });
  it("what does not fit is refused with its reason", () => {
    expect(beginRoom({ width: 0, depth: 6, height: 3 }, false)).toMatchObject({
      problems: [{ path: "room.width" }],
    });
    expect(beginRoom({ width: 5, depth: 6, height: 1.5 }, true).ok).toBe(false);
  });
});
