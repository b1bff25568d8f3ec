import { describe, expect, it } from "vitest";
import type { HoldZone } from "../finder/index.ts";
import { newPlan, type Plan } from "../plan/index.ts";
import { HoldFollower } from "./hold-follower.ts";
import { holdLabels } from "./hold-labels.ts";
import { tapeWords } from "./hold-words.ts";
import { nameBox } from "./label-places.ts";
import { projectionOf } from "./projection.ts";

const zone: HoldZone = {
  person: 0,
  mark: [3, 3],
  asked: { pattern: "loop", exposureStops: 1 / 3, ratioStops: null, headroomStops: null },
  outline: [],
  circle: { x: 3, y: 3.1, radius_m: 0.2 },
  sides: [
    { side: "ahead", centimetres: 40, limit: { by: "exposure", stops: 1 } },
    { side: "own left", centimetres: 30, limit: { by: "ratio", stops: 1 } },
    { side: "behind", centimetres: 50, limit: { by: "exposure", stops: -1 } },
    { side: "own right", centimetres: 20, limit: { by: "pattern", pattern: "split" } },
  ],
  turn: { least: 0, leastLimit: { by: "reach" }, most: 0, mostLimit: { by: "reach" } },
  tip: { least: 0, leastLimit: { by: "reach" }, most: 0, mostLimit: { by: "reach" } },
};

describe("what ends it, on the drawing", () => {
  const pane = {
    extent: { across0: 0, across1: 6, up0: 0, up1: 6 },
    size: { width: 400, height: 400 },
    margin: { left: 20, right: 20, top: 20, bottom: 20 },
  };
  const projection = projectionOf(pane, null);
  const inside = { x0: 20, y0: 20, x1: 380, y1: 380 };
  const mark = projection.toScreen(3, 3);

  it("[HZ14] each side's words stand on that side and clear of each other and of what is written", () => {
    const name = { x0: mark.x + 20, x1: mark.x + 70, y0: mark.y - 8, y1: mark.y + 8 };
    const labels = holdLabels(zone, 180, projection, "metric", inside, [name]);
    expect(labels.map(({ text }) => text)).toEqual([
      "40 cm brighter",
      "30 cm ratio up",
      "50 cm darker",
      "20 cm split",
      "circle 20 cm",
    ]);
    const boxes = [name, ...labels.map(nameBox)];
    boxes.forEach((a, i) => {
      for (const b of boxes.slice(i + 1))
        expect(a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1).toBe(false);
    });
    const [ahead, left, behind, right] = labels;
    // facing the camera side: ahead is down the screen, own left to the right
    expect(ahead.y).toBeGreaterThan(mark.y);
    expect(left.x).toBeGreaterThan(mark.x);
    expect(behind.y).toBeLessThan(mark.y);
    expect(right.x).toBeLessThan(mark.x);
  });

  it("[HZ14] where there is no room they are left out, never off the paper", () => {
    expect(holdLabels(zone, 180, projection, "metric", inside, [inside])).toEqual([]);
    const small = { x0: mark.x - 60, x1: mark.x + 60, y0: mark.y - 40, y1: mark.y + 40 };
    for (const label of holdLabels(zone, 180, projection, "metric", small, [])) {
      const box = nameBox(label);
      expect(box.x0 >= small.x0 && box.x1 <= small.x1 && box.y0 >= small.y0 && box.y1 <= small.y1).toBe(true);
    }
  });

  it("[HZ14] tape is read down to the centimetre, or in inches", () => {
    expect(tapeWords(0.319, "metric")).toBe("31 cm");
    expect(tapeWords(0.3, "metric")).toBe("30 cm");
    expect(tapeWords(0.31, "feet")).toBe("1′ ¼″");
    expect(tapeWords(0.2, "feet")).toBe("7¾″");
  });
});

describe("following the plan", () => {
  const named = (title: string): Plan => ({ ...newPlan(), title, people: [{}] as never });
  function listening() {
    const asked: string[] = [];
    const answers: (() => void)[] = [];
    const follower = new HoldFollower({
      hold: (plan, { person }, options) =>
        new Promise((resolve, reject) => {
          asked.push(`${plan.title} ${person}`);
          answers.push(() =>
            options?.signal?.aborted ? reject(new Error("stopped")) : resolve({ ...zone, person }),
          );
        }),
    });
    return { asked, answers, follower };
  }
  const turn = () => new Promise((resolve) => setTimeout(resolve, 0));

  it("[HZ15] asks once for a plan, keeps what it found, and asks again for another plan or person", async () => {
    const { asked, answers, follower } = listening();
    const plan = named("a");
    follower.follow(plan, 0);
    follower.follow(plan, 0);
    expect(follower.store.get().busy).toBe(true);
    answers[0]();
    await turn();
    expect(follower.store.get()).toMatchObject({ of: plan, busy: false, failure: null });
    follower.follow(plan, 0);
    expect(asked).toEqual(["a 0"]);
    const next = { ...named("b"), people: [{}, {}] as never };
    follower.follow(next, 1);
    expect(asked).toEqual(["a 0", "b 1"]);
    // until it is there the old one is known for what it is
    expect(follower.store.get().of).toBe(plan);
  });

  it("[HZ15] what is overtaken is stopped and never shown; nothing is asked while the plan is not at rest", async () => {
    const { asked, answers, follower } = listening();
    follower.follow(named("a"), 0);
    follower.follow(null, 0);
    answers[0]();
    await turn();
    expect(follower.store.get()).toEqual({ zone: null, of: null, busy: false, failure: null });
    follower.follow({ ...named("c"), people: [] }, 0);
    expect(asked).toEqual(["a 0"]);
  });

  it("[HZ15] a failure is said, and the next plan is worked out", async () => {
    let fail = true;
    const follower = new HoldFollower({
      hold: () => (fail ? Promise.reject(new Error("no")) : Promise.resolve(zone)),
    });
    follower.follow(named("a"), 0);
    await turn();
    expect(follower.store.get()).toMatchObject({ failure: "no", busy: false });
    fail = false;
    follower.follow(named("b"), 0);
    await turn();
    expect(follower.store.get()).toMatchObject({ failure: null, zone });
  });
});
