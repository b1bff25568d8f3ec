/** Several windows of one work, in one browser and in two, while news comes late, out of order or not at all. */
import fc from "fast-check";
import { expect, it } from "vitest";
import { newPlan, type Plan, serialisePlan, setField } from "../src/plan/index.ts";
import type { Session } from "../src/workbench/index.ts";
import { arrive, calm, Seat, slowShelf, World } from "../src/workbench/testing/windows.ts";
import { amount } from "./amount.ts";

const SEED = 20_261_126;
const KEY = "cellist";
const START = serialisePlan({ ...newPlan(), title: "start" });

/** Every value is made once, so that it can be looked for afterwards. */
const FIELDS = ["title", "iso", "note", "light"] as const;
type Field = (typeof FIELDS)[number];
interface Made {
  readonly field: Field;
  readonly value: number;
}

function edited(session: Session, field: Field, value: number): boolean {
  const edit = {
    title: () => setField(`title ${value}`, ["title"], `t${value}`),
    iso: () => setField(`iso ${value}`, ["camera", "iso"], 100 + value),
    note: () => setField(`lux ${value}`, ["ambient", "lux"], 100 + value),
    light: () => setField(`lights ${value}`, ["marks"], [...session.get().plan.marks, markOf(value)]),
  }[field]();
  return session.edit(edit).ok;
}

const markOf = (value: number) => ({ name: `m${value}`, position: [1 + value / 1000, 1] });

function has(plan: Plan, { field, value }: Made): boolean {
  if (field === "title") return plan.title === `t${value}`;
  if (field === "iso") return plan.camera.iso === 100 + value;
  if (field === "note") return plan.ambient.lux === 100 + value;
  return plan.marks.some((mark) => mark.name === `m${value}`);
}

function plansOf(session: Session): Plan[] {
  const { steps, at } = session.get();
  const plans = steps.map((_, i) => {
    session.goTo(i);
    return session.get().plan;
  });
  session.goTo(at);
  return plans;
}

const isAsked = (seat: Seat) => seat.session.get().saving.state === "conflict";

const step = fc.record({
  who: fc.nat(2),
  what: fc.constantFrom(
    ...(["edit", "edit", "edit", "edit", "timer", "timer", "message", "message", "message"] as const),
    ...(["request", "request", "request", "lost", "undo", "away", "leave"] as const),
  ),
  pick: fc.nat(1000),
});

const seen = { runs: 0, edits: 0, questions: 0, undone: 0 };

async function play(steps: readonly { who: number; what: string; pick: number }[], isTaking: boolean) {
  const world = new World(() => new Date(0));
  world.isGated = false;
  let ticks = steps.length;
  const pickNext = () => steps[ticks++ % steps.length].pick;
  const shared = slowShelf(pickNext);
  const seats = [
    new Seat(world, shared, "here"),
    new Seat(world, shared, "here"),
    new Seat(world, slowShelf(pickNext), "there"),
  ];
  await seats[0].session.open(KEY, START);
  await seats[0].session.flush();
  await calm();
  for (const seat of seats.slice(1)) await seat.session.resume(KEY);
  await arrive(world);
  world.isGated = true;
  const made: Made[] = [];
  let count = 0;
  let undone = new Set<Made>();
  for (const { who, what, pick } of steps) {
    const { session, timers } = seats[who];
    const isOpen = session.get().key === KEY;
    if (what === "leave" || (what === "edit" && session.get().key === "")) {
      // another plan comes onto the table; the work may be open in other windows all the while
      if (isOpen && pick % 2 === 0) continue;
      void (isOpen ? session.createNew() : session.resume(KEY).then(() => seats[who].courier.look(KEY)));
    } else if (what === "edit" && isOpen) {
      const one: Made = { field: FIELDS[pick % FIELDS.length], value: ++count };
      if (edited(session, one.field, one.value)) made.push(one);
    } else if (what === "undo" && isOpen && session.get().undoLabel !== null) {
      const before = session.get().plan;
      session.undo();
      for (const one of made) {
        if (has(before, one) && !has(session.get().plan, one)) undone = undone.add(one);
      }
    } else if (what === "timer") for (const run of timers.splice(0)) run();
    else if (what === "message" || what === "lost") {
      const [message] = world.messages.splice(pick % Math.max(1, world.messages.length), 1);
      if (what === "message") void message?.arrive();
    } else if (what === "request")
      void world.requests.splice(pick % Math.max(1, world.requests.length), 1)[0]?.();
    else if (what === "away") world.isAway = pick % 3 === 0;
    // some things overlap
    if (pick % 4 !== 0) await calm();
  }
  world.isAway = false;
  world.isGated = false;
  await arrive(world);
  for (const seat of seats) {
    if (seat.session.get().key !== KEY) await seat.session.resume(KEY);
    seat.courier.look(KEY);
  }
  // as when somebody comes back to each window
  const wake = async () => {
    for (const seat of seats) {
      void seat.session.flush();
      void seat.courier.wake();
      void seat.courier.heard(KEY);
      void seat.courier.told(KEY);
    }
    await arrive(world);
  };
  for (let round = 0; round < 12; round++) {
    await wake();
    const asked = seats.find(isAsked);
    if (!asked) continue;
    seen.questions++;
    void (isTaking ? asked.session.takeTheirs() : asked.session.keepMine());
    await arrive(world);
  }
  expect(seats.map(isAsked)).toEqual([false, false, false]);
  const [first, ...others] = seats.map((seat) => seat.session.get());
  for (const other of others) expect(other.plan).toEqual(first.plan);
  expect((await world.kept.load(KEY))?.plan).toEqual(first.plan);
  for (const seat of seats) {
    const plans = plansOf(seat.session);
    const lost = made.filter((one) => !undone.has(one) && !plans.some((plan) => has(plan, one)));
    expect(lost, `of ${seat.self}: ${seat.session.get().steps.map((s) => s.label)}`).toEqual([]);
  }
  seen.runs++;
  seen.edits += made.length;
  seen.undone += undone.size;
}

it(`[WB16] windows of one work end on one plan, and no edit is out of reach of undo (seed ${SEED})`, async () => {
  await fc.assert(fc.asyncProperty(fc.array(step, { minLength: 20, maxLength: 60 }), fc.boolean(), play), {
    seed: SEED,
    numRuns: amount(300),
    endOnFailure: true,
  });
  // where nobody was ever asked, or nothing was edited, it would prove little
  expect(seen.edits).toBeGreaterThan(seen.runs * 3);
  expect(seen.questions).toBeGreaterThan(seen.runs / 10);
  expect(seen.undone).toBeGreaterThan(seen.runs / 10);
}, 600_000);
