import { describe, expect, test, vi } from "vitest";
import type { Plan } from "../plan/index.ts";
import type { MapRequest } from "../reading/index.ts";
import type { Computer } from "../workbench/index.ts";
import { ResultsFollower } from "./results.ts";

interface Call {
  readonly what: string;
  readonly finish: (value: unknown) => void;
  readonly stopped: () => boolean;
}

function recorder(who: string, calls: Call[]): Computer {
  const job = (what: string, signal: { aborted: boolean } | undefined) =>
    new Promise<never>((resolve) =>
      calls.push({
        what: `${who} ${what}`,
        finish: resolve as Call["finish"],
        stopped: () => signal?.aborted ?? false,
      }),
    );
  return {
    read: (plan, quality, options) => job(`reads ${plan.title} ${quality}`, options?.signal),
    frame: (plan, { quality, width }, options) =>
      job(`pictures ${plan.title} ${quality} ${width}`, options?.signal),
    map: (plan, { quality, plane }, options) =>
      job(`maps ${plan.title} ${quality} ${plane}`, options?.signal),
  };
}

const plan = (title: string) => ({ title }) as unknown as Plan;
const FLOOR: MapRequest = { plane: "floor", at: 1.5, person: 0, reference: { kind: "person", index: 0 } };
const MAPS = { floor: FLOOR, side: null };
const turn = () => vi.advanceTimersByTimeAsync(0);

describe("what follows the plan", () => {
  function bench() {
    vi.useFakeTimers();
    const calls: Call[] = [];
    const follower = new ResultsFollower(recorder("A", calls), recorder("B", calls));
    const open = () => calls.map(({ what }) => what);
    const answer = async (what: string) => {
      const at = calls.findIndex((call) => call.what === what);
      expect(at, `${what} among ${open().join("; ")}`).toBeGreaterThanOrEqual(0);
      const [call] = calls.splice(at, 1);
      call?.finish({ said: what, width: 60 });
      await turn();
    };
    return { calls, follower, open, answer };
  }

  test("[GL13] reading and picture at a glance come together; all that is finer waits until nothing changes", async () => {
    const { follower, open, answer } = bench();
    follower.ask(plan("first"), MAPS);
    expect(open()).toEqual(["A reads first glance", "A pictures first glance 60"]);
    await answer("A reads first glance");
    expect(follower.store.get().reading).toBeNull();
    await answer("A pictures first glance 60");
    expect(follower.store.get()).toMatchObject({ readingQuality: "glance", readingOf: plan("first") });
    expect(follower.store.get().frameOf).toBe(follower.store.get().readingOf);
    expect(open()).toEqual(["B maps first coarse floor"]);
    await vi.advanceTimersByTimeAsync(200);
    expect(open()).toEqual([
      "B maps first coarse floor",
      "A reads first fine",
      "B pictures first coarse 180",
    ]);
    vi.useRealTimers();
  });

  test("[GL13] a change gives up all that is finer; what is dropped never shows", async () => {
    const { calls, follower, open, answer } = bench();
    follower.ask(plan("first"), { floor: null, side: null });
    await answer("A reads first glance");
    await answer("A pictures first glance 60");
    await vi.advanceTimersByTimeAsync(200);
    const fine = calls.slice();
    expect(open()).toEqual(["A reads first fine", "B pictures first coarse 180"]);
    follower.ask(plan("second"), { floor: null, side: null });
    expect(fine.map((call) => call.stopped())).toEqual([true, true]);
    await answer("A reads first fine");
    expect(follower.store.get().readingQuality).toBe("glance");
    expect(follower.store.get().busy).toMatchObject({ reading: true, frame: true });
    await answer("A reads second glance");
    await answer("A pictures second glance 60");
    expect(follower.store.get().readingOf?.title).toBe("second");
    vi.useRealTimers();
  });

  test("[GL14] while something is dragged the worker of the glances does nothing else", async () => {
    const { follower, open, answer } = bench();
    for (const title of ["first", "second", "third"]) {
      follower.ask(plan(title), MAPS);
      await answer(`A reads ${title} glance`);
      await answer(`A pictures ${title} glance 60`);
      expect(open().filter((what) => what.startsWith("A"))).toEqual([]);
      await answer(`B maps ${title} coarse floor`);
    }
    await vi.advanceTimersByTimeAsync(200);
    expect(
      open()
        .filter((what) => what.startsWith("A"))
        .sort(),
    ).toEqual(["A maps third fine floor", "A reads third fine"]);
    vi.useRealTimers();
  });
});
