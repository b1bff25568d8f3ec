import { describe, expect, test } from "vitest";
import { applyEdit, type Plan, parsePlan, type Vec3 } from "../plan/index.ts";
import { Memory, readPlan } from "../reading/index.ts";
import { NO_GUESS_YET } from "./guess.ts";
import { askedMeter, withoutAnswers } from "./guess-answers.ts";
import { carriedLight, nextQuestions } from "./guess-next.ts";
import { placeWords, powerVerdict, shadowVerdict } from "./guess-words.ts";
import { bridgeOf } from "./layer-height.ts";
import { type Results, ResultsFollower } from "./results.ts";

function planOf(fields: object): Plan {
  const parsed = parsePlan(
    JSON.stringify({
      format: "tapemark/plan",
      version: 1,
      room: { width: 5, depth: 6, height: 2.7 },
      people: [{ name: "cellist", position: [2.5, 4], stature: 1.7, facing: 180 }],
      lights: [
        {
          name: "key",
          position: [3.4, 2.9, 2.2],
          direction: { at: [2.5, 4, 1.58] },
          face: { shape: "disc", width: 0.4 },
          output: { lumenSeconds: 1000 },
        },
      ],
      camera: { position: [2.5, 1, 1.6], direction: { at: [2.5, 4, 1.6] } },
      ...fields,
    }),
  );
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  return parsed.plan;
}

const meter = (name: string, receptor: string) => ({ name, receptor, position: [2.5, 3.8, 1.5] });

describe("guess, then see", () => {
  test("[AP72] nothing that was read is left while a guess is made, and nothing else is touched", () => {
    const idle = { read: () => new Promise<never>(() => {}), frame: () => new Promise<never>(() => {}) };
    const follower = new ResultsFollower(
      { ...idle, map: () => new Promise<never>(() => {}) },
      { ...idle, map: () => new Promise<never>(() => {}) },
    );
    const plan = planOf({});
    const reading = readPlan(plan, "coarse", new Memory());
    const computed = { ...follower.store.get(), reading, readingOf: plan, failure: "no room" } as Results;
    const hidden = withoutAnswers(computed);
    expect(JSON.stringify(hidden)).not.toContain("pattern");
    expect([hidden.reading, hidden.frame, hidden.floorMap, hidden.sideMap]).toEqual([null, null, null, null]);
    expect(hidden.failure).toBe("no room");
  });

  test("[AP73] a place is said as the sitter would say it, down and up, own left and right", () => {
    expect(placeWords({ left_mm: -18, up_mm: -22 })).toBe("18 mm to own right, 22 mm down");
    expect(placeWords({ left_mm: 3.6, up_mm: 0.2 })).toBe("4 mm to own left");
    expect(placeWords({ left_mm: 0, up_mm: 0 })).toBe("at the tip of the nose");
  });

  test("[AP73] off by millimetres, and which way", () => {
    const truth = { left_mm: -20, up_mm: -10 };
    const verdict = shadowVerdict({ left_mm: -17, up_mm: -14 }, truth, "loop");
    expect(verdict.strong).toBe("5 mm off");
    expect(verdict.detail).toBe(
      "guessed 3 mm too far to own left, 4 mm too low; its tip falls 20 mm to own right, 10 mm down",
    );
    expect(shadowVerdict({ left_mm: -19, up_mm: -10 }, truth, "loop").strong).toBe("Right");
    expect(shadowVerdict("none", truth, "loop").strong).toBe("It has a tip");
  });

  test("[AP73] where there is no tip, none is right, and why is said", () => {
    expect(shadowVerdict("none", null, "flat")).toMatchObject({
      strong: "Right",
      detail: "no tip: it keeps to the nose",
    });
    expect(shadowVerdict({ left_mm: 1, up_mm: 2 }, null, "rembrandt").detail).toContain("into the dark side");
  });

  test("[AP73] off by stops: f/11 for f/8 is a stop over", () => {
    const read = { fNumber: 8, fStops: "f/8 + 0.0" };
    expect(powerVerdict(8 * Math.SQRT2, read, "f/11 + 0.0").strong).toBe("1.0 stop over");
    expect(powerVerdict(8 * 2 ** -0.2, read, "f/5.6 + 0.6").strong).toBe("0.4 stops under");
    expect(powerVerdict(8, read, "f/8 + 0.0").strong).toBe("Right");
  });

  test("[AP74] the first meter for light that arrives is asked about, by name and receptor", () => {
    const plan = planOf({ meters: [meter("paper", "spot"), meter("chin", "flat"), meter("dome", "dome")] });
    expect(askedMeter(plan, 0)).toMatchObject({ index: 1, plan, words: "at the chin, a flat receptor" });
  });

  test("[AP74] without one, a dome before the face, turned to the camera, is read", () => {
    const plan = planOf({ meters: [meter("paper", "spot")] });
    const asked = askedMeter(plan, 0);
    const added = asked.plan.meters[asked.index];
    expect(added?.receptor).toBe("dome");
    // the nose of somebody 1.70 m tall, and 4 cm before it
    const bridge = bridgeOf(plan, 0) as Vec3;
    const away = Math.hypot(...bridge.map((v, k) => v - (added?.position[k] as number)));
    expect(away).toBeGreaterThan(0.04);
    expect(away).toBeLessThan(0.09);
    const { meters } = readPlan(asked.plan, "coarse", new Memory());
    expect(meters[asked.index]?.fNumber).toBeGreaterThan(1);
  });

  test("[AP75] next carries the light round the sitter: as far away as before, aimed at the face, one named step", () => {
    const plan = planOf({});
    const bridge = bridgeOf(plan, 0) as Vec3;
    const awayOf = (of: Plan) =>
      Math.hypot(...bridge.map((v, k) => v - (of.lights[carriedLight(of)]?.position[k] as number)));
    const made = nextQuestions(plan, 0, 0).map(({ edit }) => applyEdit(plan, edit));
    const plans = made.flatMap((edited) => (edited.ok ? [edited.plan] : []));
    expect(plans.length).toBeGreaterThan(5);
    // places are rounded to the centimetre
    for (const each of plans) expect(Math.abs(awayOf(each) - awayOf(plan))).toBeLessThan(0.01);
    const patterns = plans.map((each) => readPlan(each, "coarse", new Memory()).people[0]?.face.pattern);
    expect(new Set(patterns).size).toBeGreaterThanOrEqual(3);
    expect(nextQuestions(plan, 0, 0)[0]?.edit.label).toBe("next question: key carried round");
  });

  test("[AP73] a new guess knows nothing", () => {
    expect(NO_GUESS_YET).toEqual({ shadow: null, fNumber: null, compared: false });
  });
});
