import { describe, expect, it } from "vitest";
import { type Plan, parsePlan } from "../plan/index.ts";
import type { WorkOptions } from "../workbench/index.ts";
import { AskFollower, type Question } from "./ask-follower.ts";

const parsed = parsePlan('{"format":"tapemark/plan","version":1}');
if (!parsed.ok) throw new Error("an empty plan does not parse");
const PLAN: Plan = parsed.plan;

/** A question whose work is ended by hand. */
function asking() {
  const runs: { options: WorkOptions; resolve: (is: string) => void; reject: (error: Error) => void }[] = [];
  const question: Question<string> = {
    about: { plan: PLAN, person: 0, units: "metric" },
    work: (options) => new Promise((resolve, reject) => runs.push({ options, resolve, reject })),
  };
  return { question, runs };
}

/** Rest that comes when it is called. */
function rest() {
  let waiting: (() => void) | null = null;
  return {
    later: (work: () => void) => {
      waiting = work;
      return () => {
        waiting = null;
      };
    },
    comes: () => {
      const work = waiting;
      waiting = null;
      work?.();
    },
  };
}
const turn = () => new Promise((resolve) => setTimeout(resolve, 0));

describe("what is worked out beside the plan", () => {
  it("[MV36] waits for rest, says how far it is, keeps the answer until a newer one is there", async () => {
    const { later, comes } = rest();
    const follower = new AskFollower<string>(later);
    const [first, second] = [asking(), asking()];
    follower.follow(first.question);
    expect([first.runs.length, follower.store.get().done]).toEqual([0, 0]);
    comes();
    first.runs[0]?.options.onProgress?.({ done: 0.4567, what: "" });
    expect(follower.store.get().done).toBe(0.45);
    first.runs[0]?.resolve("one");
    await turn();
    expect(follower.store.get()).toMatchObject({ done: null, answer: { to: first.question, is: "one" } });
    follower.follow(second.question);
    expect(follower.store.get().answer?.to).toBe(first.question);
  });

  it("[MV36] a newer question stops the old one, whose answer never comes in", async () => {
    const { later, comes } = rest();
    const follower = new AskFollower<string>(later);
    const [old, newer] = [asking(), asking()];
    follower.follow(old.question);
    comes();
    follower.follow(newer.question);
    expect(old.runs[0]?.options.signal?.aborted).toBe(true);
    old.runs[0]?.resolve("late");
    await turn();
    expect(follower.store.get()).toMatchObject({ done: 0, answer: null });
    // a question that was replaced before there was rest is never worked on
    const third = asking();
    follower.follow(third.question);
    comes();
    expect([newer.runs.length, third.runs.length]).toEqual([0, 1]);
  });

  it("[MV36] stop, failure, and once more", async () => {
    const { later, comes } = rest();
    const follower = new AskFollower<string>(later);
    const { question, runs } = asking();
    follower.follow(question);
    comes();
    follower.stop();
    expect(runs[0]?.options.signal?.aborted).toBe(true);
    expect(follower.store.get()).toMatchObject({ done: null, isStopped: true, failure: null });
    follower.again();
    comes();
    runs[1]?.reject(new Error("the worker died"));
    await turn();
    expect(follower.store.get()).toMatchObject({ done: null, isStopped: false, failure: "the worker died" });
    follower.again();
    comes();
    runs[2]?.resolve("well");
    await turn();
    expect(follower.store.get()).toMatchObject({ failure: null, answer: { is: "well" } });
    follower.follow(null);
    expect(follower.store.get()).toMatchObject({ done: null, answer: { is: "well" } });
  });
});
