import { expect, it } from "vitest";
import { newPlan, type Plan } from "../plan/index.ts";
import type { PlanReading } from "../reading/index.ts";
import type { Computer, FramePicture } from "../workbench/index.ts";
import { isFinal, MovesFollower, type Round } from "./moves-follower.ts";

const named = (title: string): Plan => ({ ...newPlan(), title });
const REGION = { left: 0, top: 0, right: 1, bottom: 1 };
const roundOf = (base: Plan, ...keys: string[]): Round => ({
  base,
  person: 0,
  region: REGION,
  trials: keys.map((key) => ({ key, does: `does ${key}`, plan: named(key) })),
});

/** Answers at once, or when it is let go on, and writes down what it was asked. */
function listening(hold = false) {
  const asked: string[] = [];
  let go: () => void = () => {};
  const answer = async <T>(what: string, value: T, signal?: { aborted: boolean }): Promise<T> => {
    asked.push(what);
    if (hold)
      await new Promise<void>((resolve) => {
        go = resolve;
      });
    if (signal?.aborted) throw new Error("stopped");
    return value;
  };
  const computer: Computer = {
    read: (plan, quality, options) =>
      answer(
        `read ${plan.title} ${quality}`,
        { warnings: [{ path: plan.title }] } as never as PlanReading,
        options?.signal,
      ),
    frame: (plan, { quality }, options) =>
      answer(`frame ${plan.title} ${quality}`, { width: 1 } as never as FramePicture, options?.signal),
    map: () => Promise.reject(new Error("no map is asked for")),
  };
  return { asked, computer, go: () => go() };
}

const turn = () => new Promise((resolve) => setTimeout(resolve, 0));

it("[MV13] all are worked out coarse and then fine, one after another, each beside the plan read in the same quality", async () => {
  const { asked, computer } = listening();
  const follower = new MovesFollower(computer);
  const round = roundOf(named("base"), "a", "b");
  follower.follow(round);
  await turn();
  const pass = (quality: string) =>
    ["read base", "read a", "frame a", "read b", "frame b"].map((what) => `${what} ${quality}`);
  expect(asked).toEqual([...pass("coarse"), ...pass("fine")]);
  const { tried, done } = follower.store.get();
  expect(done).toBe(round);
  expect(tried.a.before.warnings[0].path).toBe("base");
  expect(tried.a.after.warnings[0].path).toBe("a");
  expect(isFinal(tried.b, round)).toBe(true);
  follower.follow(round);
  await turn();
  expect(asked).toHaveLength(10);
  // another face of the same plan is another round
  follower.follow({ ...round, person: 1 });
  await turn();
  expect(asked).toHaveLength(20);
});

it("[MV13] anything newer stops it at once, and what was done is kept when work goes on", async () => {
  const { asked, computer, go } = listening(true);
  const follower = new MovesFollower(computer);
  const round = roundOf(named("base"), "a", "b");
  follower.follow(round);
  for (let i = 0; i < 3; i++) {
    go();
    await turn();
  }
  expect(asked.at(-1)).toBe("read b coarse");
  follower.follow(null);
  go();
  await turn();
  expect(asked).toHaveLength(4);
  expect(follower.store.get()).toMatchObject({ failure: null, done: null });
  follower.follow(round);
  go();
  await turn();
  expect(asked.slice(4)).toEqual(["read base coarse", "read b coarse"]);
});

it("[MV14] what belongs to an older plan stays until it is replaced", async () => {
  const { computer } = listening();
  const follower = new MovesFollower(computer);
  const [old, now] = [roundOf(named("old"), "a"), roundOf(named("now"), "a")];
  follower.follow(old);
  await turn();
  const held = listening(true);
  const later = new MovesFollower(held.computer);
  later.store.set(follower.store.get());
  later.follow(now);
  await turn();
  expect(later.store.get().tried.a.round).toBe(old);
  expect(isFinal(later.store.get().tried.a, now)).toBe(false);
});

it("[MV13] a failure is told, and the next plan is a new beginning", async () => {
  const failing: Computer = {
    ...listening().computer,
    read: () => Promise.reject(new Error("out of memory")),
  };
  const follower = new MovesFollower(failing);
  follower.follow(roundOf(named("base"), "a"));
  await turn();
  expect(follower.store.get().failure).toBe("out of memory");
});
