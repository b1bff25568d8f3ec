import { describe, expect, it } from "vitest";
import { begin, current, type History, newPlan, record } from "../plan/index.ts";
import { packHistory, unpackHistory } from "./kept-history.ts";

function historyOf(count: number, titleAt: (i: number) => string): History {
  let history = begin(newPlan());
  for (let i = 1; i < count; i++)
    history = record(history, `step ${i}`, { ...current(history), title: titleAt(i) });
  return history;
}
const kept = (history: History, most?: number) =>
  JSON.parse(JSON.stringify(packHistory(history, "", most))) as unknown;

describe("[WB7] a kept history writes once what did not change", () => {
  it("comes back step by step", () => {
    const history = { ...historyOf(60, (i) => `t${i}`), at: 20 };
    const back = unpackHistory(kept(history), null)?.history;
    expect(back).toEqual(history);
  });

  it("a part that is taken away, and comes again, does so step by step", () => {
    let history = begin(newPlan());
    for (const photometry of [{ "a.ies": "A" }, undefined, { "a.ies": "A" }]) {
      const { photometry: _before, ...plan } = current(history);
      history = record(history, "lamp", photometry === undefined ? plan : { ...plan, photometry });
    }
    const back = unpackHistory(kept(history), null)?.history.steps.map(({ plan }) => plan.photometry);
    expect(back).toEqual([undefined, { "a.ies": "A" }, undefined, { "a.ies": "A" }]);
  });

  it("what earlier versions kept, every step whole, is read", () => {
    const history = historyOf(4, (i) => `t${i}`);
    const { carries: _later, ...packed } = packHistory(history, "");
    const whole = { ...packed.steps[0].plan };
    const steps = packed.steps.map(({ label, plan }) => ({ label, plan: { ...Object.assign(whole, plan) } }));
    const back = unpackHistory({ ...packed, steps }, null)?.history;
    expect(back?.steps.map(({ plan }) => plan.title)).toEqual(history.steps.map(({ plan }) => plan.title));
  });

  it("a hundred steps of one field take less than a third of a hundred plans, even empty ones", () => {
    const history = historyOf(100, (i) => `t${i}`);
    const whole = JSON.stringify(history).length;
    expect(JSON.stringify(kept(history)).length).toBeLessThan(whole / 3);
  });

  it("one too long loses its oldest steps, never the newest", () => {
    const history = historyOf(500, (i) => `${i} ${"x".repeat(150)}`);
    const small = kept(history, 20_000);
    // the step that crosses the limit is still written: one plan more at most
    expect(JSON.stringify(small).length).toBeLessThan(25_000);
    const back = unpackHistory(small, null)?.history as History;
    expect(back.steps.length).toBeGreaterThan(20);
    expect(current(back)).toEqual(current(history));
  });

  it("what was undone gives way only after everything older", () => {
    const history = { ...historyOf(200, (i) => `${i} ${"x".repeat(150)}`), at: 3 };
    const back = unpackHistory(kept(history, 1000), null)?.history as History;
    expect(current(back)).toEqual(current(history));
  });

  it.each([
    ["not there", undefined],
    ["another shape", { steps: 3 }],
    ["beyond its end", { ...packHistory(historyOf(2, String), ""), at: 9 }],
    ["a broken step", { opened: "", at: 0, parts: [7], steps: [{ label: "x", plan: { title: 0 } }] }],
  ])("a history that is %s gives way to the kept plan alone", (_, broken) => {
    const back = unpackHistory(broken, newPlan())?.history;
    expect(back).toEqual(begin(newPlan()));
  });

  it("is null where there is no plan either", () => {
    expect(unpackHistory(undefined, { lights: 3 })).toBeNull();
  });
});
