import { describe, expect, it } from "vitest";
import { suggestedName } from "./client.ts";
import { Connection } from "./connection.ts";
import { EventReader } from "./event-reader.ts";
import { keptUnder, zoomedBy } from "./zoom.ts";

/** Nobody but the test moves the time on, and the workbench says what the test says. */
class Stage {
  readonly calls: { signal: AbortSignal; status(code: number): void; say(event: object | string): void }[] =
    [];
  #settle: { end: () => void; fail: (why: Error) => void }[] = [];
  readonly #timers = new Set<{ at: number; run: () => void }>();
  #now = 0;
  readonly connection = new Connection({
    follow: (signal, { onStatus, onText }) =>
      new Promise((end, fail) => {
        this.#settle.push({ end, fail });
        signal.addEventListener("abort", () => fail(new Error("aborted")));
        const say = (event: object | string) =>
          onText(typeof event === "string" ? event : `data: ${JSON.stringify(event)}\n\n`);
        this.calls.push({ signal, status: onStatus, say });
      }),
    after: (delay, run) => {
      const timer = { at: this.#now + delay, run };
      this.#timers.add(timer);
      return () => this.#timers.delete(timer);
    },
  });

  get last() {
    return this.calls[this.calls.length - 1];
  }

  async pass(ms: number): Promise<void> {
    this.#now += ms;
    for (const timer of [...this.#timers])
      if (timer.at <= this.#now && this.#timers.delete(timer)) timer.run();
    await settled();
  }

  async breaks(): Promise<void> {
    this.#settle[this.#settle.length - 1].fail(new Error("gone"));
    await settled();
  }

  async ends(): Promise<void> {
    this.#settle[this.#settle.length - 1].end();
    await settled();
  }

  get state(): string {
    return this.connection.get().link.state;
  }
}

const settled = async () => {
  for (let i = 0; i < 5; i++) await null;
};
const PLAN = { title: "poster" };

function live(): Stage {
  const stage = new Stage();
  stage.connection.open();
  stage.last.status(200);
  stage.last.say({ kind: "plan", plan: PLAN });
  return stage;
}

describe("[PN3] what is known of the thread is said, and it is taken up again by itself", () => {
  it("is live with the first plan, and with every newer one", () => {
    const stage = new Stage();
    expect(stage.state).toBe("opening");
    stage.connection.open();
    expect(stage.state).toBe("opening");
    stage.last.say({ kind: "plan", plan: PLAN });
    expect(stage.connection.get()).toMatchObject({ link: { state: "live" }, plan: PLAN });
    stage.last.say({ kind: "plan", plan: { title: "poster 2" } });
    expect(stage.connection.get().plan?.title).toBe("poster 2");
    stage.last.say({ kind: "nothing" });
    expect(stage.connection.get()).toMatchObject({ link: { state: "live" }, plan: null });
  });

  it("where it breaks the last plan stays in sight as lost, and it is tried later and later", async () => {
    const stage = live();
    await stage.breaks();
    expect(stage.connection.get()).toMatchObject({ link: { state: "lost" }, plan: PLAN });
    const waits = [500, 1000, 2000, 4000, 5000, 5000];
    for (const [i, wait] of waits.entries()) {
      await stage.pass(wait - 1);
      expect(stage.calls).toHaveLength(1 + i);
      await stage.pass(1);
      expect(stage.calls).toHaveLength(2 + i);
      await stage.breaks();
    }
    await stage.pass(5000);
    stage.last.say({ kind: "plan", plan: PLAN });
    expect(stage.state).toBe("live");
    // a new loss begins at the beginning
    await stage.ends();
    await stage.pass(500);
    expect(stage.calls).toHaveLength(waits.length + 3);
  });

  it("silence is a loss: the workbench would have said that it is there", async () => {
    const stage = live();
    for (let i = 0; i < 5; i++) {
      await stage.pass(15_000);
      stage.last.say(": here\n\n");
    }
    expect(stage.state).toBe("live");
    await stage.pass(35_000);
    expect(stage.state).toBe("lost");
    expect(stage.calls[0].signal.aborted).toBe(true);
  });

  it("a network that is gone is a loss at once, one that is back is tried at once", async () => {
    const stage = live();
    stage.connection.lose();
    expect(stage.state).toBe("lost");
    await settled();
    stage.connection.open();
    expect(stage.calls).toHaveLength(2);
    await stage.pass(60_000);
    // the try that was put off before was taken back, the one that is under way ended in silence
    expect(stage.calls).toHaveLength(2);
  });

  it("what an earlier thread still says is not heard any more", async () => {
    const stage = live();
    stage.connection.open();
    await settled();
    expect(stage.calls[0].signal.aborted).toBe(true);
    stage.calls[0].say({ kind: "ended", why: "an old story" });
    expect(stage.state).toBe("live");
    expect(stage.calls).toHaveLength(2);
  });
});

describe("[PN4] an end is told with its reason, and nobody knocks again", () => {
  it("ended by the workbench", async () => {
    const stage = live();
    stage.last.say({ kind: "ended", why: "sharing was switched off" });
    await stage.ends();
    expect(stage.connection.get().link).toEqual({ state: "ended", why: "sharing was switched off" });
    await stage.pass(60_000);
    expect(stage.calls).toHaveLength(1);
    stage.connection.open();
    expect(stage.state).toBe("opening");
  });

  it("not paired, or not any more", async () => {
    const stage = live();
    await stage.breaks();
    await stage.pass(500);
    stage.last.status(401);
    await stage.ends();
    expect(stage.state).toBe("unpaired");
    await stage.pass(60_000);
    expect(stage.calls).toHaveLength(2);
  });

  it("a workbench that has trouble is tried again", async () => {
    const stage = live();
    await stage.breaks();
    await stage.pass(500);
    stage.last.status(500);
    await stage.ends();
    expect(stage.state).toBe("lost");
    await stage.pass(1000);
    expect(stage.calls).toHaveLength(3);
  });
});

describe("[PN5] events are put together from the pieces in which they come", () => {
  const text = 'data: {"kind":"hello"}\n\n: here\n\ndata: {"name":"naïve \\n\\n"}\n\n';
  it.each([1, 2, 3, 7, 1000])("%i letters at a time", (many) => {
    const reader = new EventReader();
    const events: unknown[] = [];
    for (let i = 0; i < text.length; i += many) events.push(...reader.read(text.slice(i, i + many)));
    expect(events).toEqual([{ kind: "hello" }, { name: "naïve \n\n" }]);
  });
});

describe("[PN2] a name is suggested", () => {
  it.each([
    ["Mozilla/5.0 (iPhone; CPU iPhone OS 14_8 like Mac OS X)", "iPhone"],
    ["Mozilla/5.0 (iPad; CPU OS 12_5 like Mac OS X)", "iPad"],
    ["Mozilla/5.0 (Linux; Android 10; K) Mobile Safari/537.36", "Android phone"],
    ["Mozilla/5.0 (Linux; Android 9; K) Safari/537.36", "Android tablet"],
    ["something else", "the assistant's device"],
  ])("%s", (agent, name) => expect(suggestedName(agent)).toBe(name));
});

describe("[PN10] what lies between two fingers stays there", () => {
  it("larger and smaller within bounds, about a point", () => {
    expect(zoomedBy(1, 0.5)).toBe(1);
    expect(zoomedBy(2, 1.5)).toBe(3);
    expect(zoomedBy(4, 3)).toBe(5);
    // 100 px into the window, 40 scrolled: the point at 140 lies at 280 when twice as large
    expect(keptUnder(40, 100, 2)).toBe(180);
    expect(keptUnder(0, 100, 0.5)).toBe(0);
  });
});
