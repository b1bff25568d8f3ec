import { describe, expect, it } from "vitest";
import measuredFile from "../../examples/cellist-measured.json";
import { checkPlan } from "../plan/index.ts";
import type { FrameRow, PlanInShoot, PlanVersion } from "../shoots/index.ts";
import { dayOf } from "./format-clock.ts";
import { queryText } from "./library-client.ts";
import { pairOf, pickTwo, planOf, readingsOf, stateOfFrame, versionWords } from "./shoots-states.ts";
import {
  bytesText,
  clippedText,
  copyText,
  countsText,
  dayText,
  frameLight,
  frameTime,
  narrowedText,
  roomText,
  sidecarsText,
  starWords,
} from "./shoots-words.ts";

const frame: FrameRow = {
  id: "f1",
  shoot: "s1",
  key: null,
  version: null,
  name: "IMG_1.JPG",
  path: null,
  takenAt: "2026-11-26T10:12:30",
  arrivedAt: "2026-11-26T09:13:00.000Z",
  width: 4000,
  height: 6000,
  pattern: "rembrandt",
  ratioStops: 2.1,
  clippedSkin: 0.013,
  stars: 3,
  isSelect: false,
  hasThumbnail: true,
};

describe("[AP111] what a row of the list says", () => {
  it("days, and that there is none yet", () => {
    expect([dayText("2026-11-06"), dayText(null), dayText("soon")]).toEqual([
      "6 Nov 2026",
      "no day yet",
      "no day yet",
    ]);
    expect(dayOf(new Date(2026, 0, 9, 23, 59))).toBe("2026-01-09");
  });
  it("counts only what there is", () => {
    expect(countsText({ plans: 1, frames: 0, selects: 0 })).toBe("1 plan");
    expect(countsText({ plans: 2, frames: 48, selects: 1 })).toBe("2 plans, 48 frames, 1 select");
  });
});

describe("[AP113] what the list is narrowed by, in words and as it is asked", () => {
  it("everything that is said, and nothing else", () => {
    const query = { text: "cell", pattern: "Loop", from: "2026-11-01", stars: 1, putAway: true };
    expect(narrowedText(query, "metric")).toBe("Loop, from 1 Nov 2026, 1 star or more, put away");
    expect(narrowedText({ room: "7.00 × 9.00 m" }, "feet")).toBe("22′ 11½″ × 29′ 6¼″");
    expect(roomText("7.00 × 9.00 m", "metric")).toBe("7.00 × 9.00 m");
    expect(narrowedText({ text: "cell", pattern: "", stars: 0, putAway: false }, "metric")).toBe("");
    expect(queryText({ text: "a & b", light: "", putAway: false, offset: 0, limit: 100 })).toBe(
      "text=a+%26+b&offset=0&limit=100",
    );
  });
});

describe("[AP117] what a frame says in the list", () => {
  it("when, which light, what clips; what is not known is not made up", () => {
    expect([frameTime(frame), frameLight(frame), clippedText(frame)]).toEqual([
      "10:12:30",
      "Rembrandt, 2.1 stops",
      "1.3 % of the skin clips",
    ]);
    const faceless = { ...frame, pattern: null, ratioStops: null, clippedSkin: null };
    expect([frameLight(faceless), clippedText(faceless)]).toEqual(["no face read", ""]);
    expect(clippedText({ ...frame, clippedSkin: 0 })).toBe("");
  });
  it("stars are told in words", () =>
    expect([0, 1, 5].map(starWords)).toEqual(["no stars", "1 star", "5 stars"]));
  it("without the camera's clock it is the clock here that says when it came in", () => {
    const at = new Date(2026, 10, 26, 9, 5, 3);
    expect(frameTime({ ...frame, takenAt: null, arrivedAt: at.toISOString() })).toBe("09:05:03");
  });
});

describe("[AP119] where the library lies and how it was copied", () => {
  const now = new Date(2026, 10, 26, 12, 0);
  const copy = { at: new Date(2026, 10, 26, 3, 12).toISOString(), path: "/copies/1", isVerified: true };
  it("in words, with nothing promised that was not seen", () => {
    expect(copyText(copy, now)).toBe("copied today 03:12; the copy opens and is whole");
    expect(copyText({ ...copy, isVerified: false }, now)).toBe("copied today 03:12; not opened yet");
    expect(copyText(null, now)).toMatch(/^no copy of it yet/);
    expect([4_000, 312_400_000, 2_450_000_000].map(bytesText)).toEqual(["under 1 MB", "312 MB", "2.5 GB"]);
  });
});

describe("[AP119] what came of writing sidecars", () => {
  const problems = [{ name: "IMG_1.JPG", problem: "no", cure: "yes" }];
  it("each count in its words", () => {
    expect(sidecarsText({ written: 1, unchanged: 3, problems })).toBe(
      "1 sidecar written, 3 were as they should be, 1 could not be written",
    );
    expect(sidecarsText({ written: 0, unchanged: 0, problems: [] })).toBe(
      "no frame of this shoot has a star or is a select",
    );
  });
});

describe("[AP115] any two states of a shoot's plans are put side by side", () => {
  const version = (key: string, number: number, name = "", isAutomatic = false): PlanVersion => ({
    ...{ id: `${key}${number}`, key, number, name, isAutomatic },
    madeAt: `2026-11-2${number}T10:00:00.000Z`,
  });
  const plan = (key: string, title: string, versions: PlanVersion[]): PlanInShoot => ({
    ...{ key, title, versions },
    savedAt: "2026-11-26T10:00:00.000Z",
    readings: 0,
    isCalibrated: false,
  });
  const plans = [
    plan("a", "Cellist", [version("a", 1, "before lunch"), version("a", 2, "", true)]),
    plan("b", "Quartet", [version("b", 3)]),
  ];
  it("one more takes the place of the one that was taken first, and a second tick lets go", () => {
    expect(pickTwo(["a1"], "a2")).toEqual(["a1", "a2"]);
    expect(pickTwo(["a1", "a2"], "b3")).toEqual(["a2", "b3"]);
    expect(pickTwo(["a1", "a2"], "a1")).toEqual(["a2"]);
  });
  it("across plans, the older one first, each by its name", () => {
    expect(pairOf(plans, ["now a", "a1"])?.map(({ name }) => name)).toEqual([
      "Cellist, 1 before lunch",
      "Cellist, as it is now",
    ]);
    expect(pairOf(plans, ["b3", "a2"])?.map(({ name }) => name)).toEqual([
      "Cellist, 2 kept by itself",
      "Quartet, 3",
    ]);
    expect([pairOf(plans, ["a1"]), pairOf(plans, ["a1", "gone"])]).toEqual([null, null]);
    expect(versionWords(version("a", 4, "  second set-up "))).toBe("4 second set-up");
    expect(versionWords(version("a", 4, "version 4"))).toBe("version 4");
  });
  it("[AP117] a frame is told with the state that it was taken under, as far as it is known", () => {
    const under = (key: string | null, id: string | null) => stateOfFrame(plans, { key, version: id });
    expect([under("a", "a1"), under("a", "gone"), under("b", null), under(null, null)]).toEqual([
      "Cellist, 1 before lunch",
      "Cellist",
      "Quartet",
      null,
    ]);
  });
  it("one that cannot be read says which and where it fails", async () => {
    const [before] = pairOf(plans, ["a1", "a2"]) ?? [];
    if (before === undefined) throw new Error("there is no pair");
    const broken = { versionPlan: async () => ({ format: "tapemark/plan" }) };
    await expect(planOf(before, broken, async () => null)).rejects.toThrow(
      /^Cellist, 1 before lunch cannot be read: \S+ must .*; choose another version$/,
    );
  });

  it("[AP116] readings of all plans stand one after the other; a plan that cannot be read has none", () => {
    const checked = checkPlan(measuredFile);
    if (!checked.ok) throw new Error("the example is broken");
    const measured = checked.plan;
    const rows = readingsOf(
      [...plans, plan("c", "Measured", [])],
      new Map([
        ["a", null],
        ["c", measured],
      ]),
    );
    expect(rows.map(({ key, title }) => `${key} ${title}`)).toEqual(
      measured.readings.map(() => "c Measured"),
    );
    expect(rows.map(({ reading }) => reading)).toEqual(measured.readings);
    expect(rows.length).toBeGreaterThan(2);
  });
});
