import { describe, expect, test } from "vitest";
import { Refiner } from "./refiner.ts";

interface Call {
  readonly input: string;
  readonly level: string;
  readonly signal: AbortSignal;
  readonly finish: (value: string) => void;
  readonly fail: (error: Error) => void;
}

function bench() {
  const calls: Call[] = [];
  const shown: string[] = [];
  const failed: unknown[] = [];
  const busy: boolean[] = [];
  const refiner = new Refiner<string, string, "coarse" | "fine">({
    levels: ["coarse", "fine"],
    compute: (input, level, signal) =>
      new Promise((finish, fail) => calls.push({ input, level, signal, finish, fail })),
    show: (output) => shown.push(output),
    fail: (error) => failed.push(error),
    still_ms: 0,
    onBusy: (value) => busy.push(value),
  });
  const settle = () => new Promise((resolve) => setTimeout(resolve, 5));
  return { refiner, calls, shown, failed, busy, settle };
}

describe("coarse at once, finer when still", () => {
  test("[AP5] while a coarse job runs, only the newest of the inputs that came meanwhile is computed", async () => {
    const { refiner, calls, shown, settle } = bench();
    for (const input of ["a", "b", "c", "d"]) refiner.ask(input);
    expect(calls.map((call) => call.input)).toEqual(["a"]);
    calls[0]?.finish("a coarse");
    await settle();
    expect(shown).toEqual(["a coarse"]);
    expect(calls.map((call) => `${call.input} ${call.level}`)).toEqual(["a coarse", "d coarse"]);
  });

  test("[AP5] when still, the fine level follows; a new input stops it", async () => {
    const { refiner, calls, shown, settle } = bench();
    refiner.ask("a");
    calls[0]?.finish("a coarse");
    await settle();
    expect(calls[1]?.level).toBe("fine");
    refiner.ask("b");
    expect(calls[1]?.signal.aborted).toBe(true);
    expect(calls[2]).toMatchObject({ input: "b", level: "coarse" });
    calls[1]?.finish("a fine, too late");
    calls[2]?.finish("b coarse");
    await settle();
    expect(shown).toEqual(["a coarse", "b coarse"]);
  });

  test("[AP5] says when it is busy and when the last level is there", async () => {
    const { refiner, calls, busy, settle } = bench();
    refiner.ask("a");
    calls[0]?.finish("coarse");
    await settle();
    calls[1]?.finish("fine");
    await settle();
    expect(busy).toEqual([true, true, false]);
  });

  test("[AP9] a failure is told once and does not stop later inputs", async () => {
    const { refiner, calls, failed, shown, settle } = bench();
    refiner.ask("a");
    calls[0]?.fail(new Error("broken"));
    await settle();
    expect(failed).toHaveLength(1);
    refiner.ask("b");
    calls[1]?.finish("b coarse");
    await settle();
    expect(shown).toEqual(["b coarse"]);
  });
});
