/** Where the plan on the table meets what others keep of the same work: another window on the same store, and keepers
 * farther away. What touches different fields becomes one plan; the same field is asked about. */
import { checkPlan, current, type History, type Plan, record } from "../plan/index.ts";
import { isSamePlan, joinHistories, meetHistories } from "./meet-histories.ts";
import { mergePlans } from "./merge-plans.ts";
import { type OpenWork, readWork } from "./open-work.ts";
import type { PlanStore, SavedWork } from "./ports.ts";
import type { Saver } from "./saver.ts";
import type { Meeting, Saving } from "./session.ts";

/** What is on the table, and how it is changed. */
export interface Table {
  readonly key: () => string;
  readonly history: () => History;
  /** puts what came of a meeting on the table; nothing of it is saved by that */
  readonly put: (history: History, opened?: string) => void;
  /** tells that `asking` has changed */
  readonly tell: () => void;
}

/** What another keeper has of the work on the table, where somebody has to decide between the two. */
interface Question {
  readonly theirs: OpenWork;
  /** the plan that both last had */
  readonly base: Plan | null;
  readonly answer: (meeting: Meeting) => void;
}

const CONFLICT = {
  state: "conflict",
  problem: "the same thing was changed elsewhere too",
  cure: "keep this plan or take the other: undo brings back either",
} as const;
const UNREADABLE: Saving = {
  state: "conflict",
  problem: "the other plan cannot be read here",
  cure: "keep this window's, or save this one as a file first",
};

export class Meetings {
  /** the plan that the store was last known to have */
  base: Plan | null = null;
  readonly #table: Table;
  readonly #saver: Saver;
  readonly #store: PlanStore;
  #question: Question | null = null;
  /** what another window on the same store has, where both changed the same */
  #clash: OpenWork | null = null;
  /** what that and the plan on the table began from */
  #clashFrom: Plan | null = null;
  /** nothing is saved over what a later program wrote */
  #isUnreadable = false;
  #running: Promise<void> | null = null;
  /** came while something was held that it would have taken out of the hand */
  #putOff: SavedWork | null = null;
  #whenLetGo: (() => void)[] = [];
  /** the plan before what is held was moved; null while nothing is held */
  #heldFrom: Plan | null = null;

  constructor(table: Table, saver: Saver, store: PlanStore) {
    this.#table = table;
    this.#saver = saver;
    this.#store = store;
  }

  /** What has to be decided; null where nothing has to. */
  get asking(): Saving | null {
    if (this.#isUnreadable) return UNREADABLE;
    if (this.#question !== null) {
      const { base, theirs } = this.#question;
      return { ...CONFLICT, between: { theirs: current(theirs.history), base } };
    }
    if (this.#clash === null) return null;
    return { ...CONFLICT, between: { theirs: current(this.#clash.history), base: this.#clashFrom } };
  }

  /** What another window on the same store has that somebody has to decide about. */
  get clash(): OpenWork | null {
    return this.#clash;
  }

  /** What is to be kept: while somebody is asked, theirs stays on top, and mine is within reach of undo under it. */
  toKeep(): History {
    const mine = this.#table.history();
    return this.#clash === null ? mine : joinHistories(mine, this.#clash.history);
  }

  /** Another work is on the table. */
  reset(base: Plan | null, clash: OpenWork | null): void {
    this.base = this.#clashFrom = base;
    this.#question?.answer("left");
    this.#question = this.#putOff = null;
    this.#clash = clash;
    this.#isUnreadable = false;
  }

  /** A drag, or a key that is down, goes on until it is let go of. */
  hold(): void {
    this.#heldFrom ??= current(this.#table.history());
  }

  /** What was held is let go of: what waited for that comes in. */
  letGo(): void {
    this.#heldFrom = null;
    for (const goOn of this.#whenLetGo.splice(0)) goOn();
    const waited = this.#putOff;
    this.#putOff = null;
    if (waited !== null) void this.see(this.#table.key(), waited);
  }

  /** Resolves when what is being made one is made one, or has to be asked about. */
  async settled(): Promise<void> {
    await this.#running;
  }

  /** Another window on the same store saved first: what touches other fields is taken in without a question. */
  meetStore(): Promise<void> {
    this.#running ??= this.#meetStore().finally(() => {
      this.#running = null;
    });
    return this.#running;
  }

  async #meetStore(): Promise<void> {
    await this.#saver.flush();
    const key = this.#table.key();
    // while one is met, the next may have saved
    while (this.#saver.isStopped) {
      const saved = await this.#store.load(key).catch(() => null);
      if (key !== this.#table.key()) return;
      const mine = this.#table.history();
      const theirs = saved && readWork(saved, mine.steps);
      this.#isUnreadable = theirs === null;
      if (theirs === null) return this.#table.tell();
      const met = this.#clash === null ? meetHistories(mine, theirs.history, this.base) : null;
      if (met === null) {
        if (this.#clash === null) this.#clashFrom = this.base;
        this.#clash = theirs;
      } else if (this.#heldFrom !== null && !keepsPlaces(current(mine), current(met))) {
        await new Promise<void>((goOn) => this.#whenLetGo.push(goOn));
        continue;
      } else this.#table.put(met);
      await this.#saver.settle(theirs.revision);
    }
  }

  /** The store has this of the work now. */
  async see(key: string, saved: SavedWork): Promise<void> {
    if (key === "" || key !== this.#table.key() || saved.revision <= this.#saver.revision) return;
    if (this.#saver.isStopped) return this.meetStore();
    // what is here and not there yet meets it by being saved
    await this.#saver.flush();
    await this.#running;
    const isOvertaken = saved.revision <= this.#saver.revision || this.#saver.isDirty;
    if (key !== this.#table.key() || isOvertaken) return;
    const mine = this.#table.history();
    const theirs = readWork(saved, mine.steps);
    // a later program's: left alone here, and asked about once something is changed
    if (theirs === null) return;
    if (this.#clash !== null) {
      this.#clash = theirs;
      this.base = current(theirs.history);
      this.#saver.follow(saved.revision);
      return this.#table.tell();
    }
    if (this.#takesFromHand(current(theirs.history))) {
      this.#putOff = saved;
      return;
    }
    this.base = current(theirs.history);
    this.#saver.follow(saved.revision);
    this.#putOff = null;
    const answered = this.#question;
    if (answered !== null && isWithin(theirs.history, current(answered.theirs.history))) {
      // somebody decided in another window
      this.#question = null;
      answered.answer("met");
    }
    this.#table.put(theirs.history, theirs.opened);
  }

  async meet(key: string, saved: SavedWork, base: unknown): Promise<Meeting> {
    if (key === "" || key !== this.#table.key()) return "absent";
    const theirs = readWork(saved, this.#table.history().steps);
    if (theirs === null) return "left";
    const checked = checkPlan(base);
    const from = checked.ok ? checked.plan : null;
    const met = meetHistories(this.#table.history(), theirs.history, from);
    if (met) return this.#keep(met);
    this.#question?.answer("left");
    return new Promise((answer) => {
      this.#question = { theirs, base: from, answer };
      this.#table.tell();
    });
  }

  /** Both ways out of a conflict, with another keeper or with another window on the same store. */
  async decide(isTaking: boolean): Promise<void> {
    const join = (theirs: OpenWork) => {
      const joined = joinHistories(theirs.history, this.#table.history());
      return isTaking ? record(joined, "taken from elsewhere", current(theirs.history)) : joined;
    };
    const question = this.#question;
    if (question !== null) {
      this.#question = null;
      question.answer(await this.#keep(join(question.theirs)));
      return;
    }
    const clash = this.#clash;
    if (clash !== null) {
      this.#clash = null;
      await this.#keep(join(clash));
      return;
    }
    const revision = (await this.#store.load(this.#table.key()))?.revision ?? 0;
    // what cannot be read cannot be taken
    if (isTaking) return;
    this.#isUnreadable = false;
    await this.#saver.settle(revision);
    await this.#running;
  }

  #takesFromHand(theirs: Plan): boolean {
    if (this.#heldFrom === null) return false;
    const mine = current(this.#table.history());
    return !keepsPlaces(mine, theirs) || mergePlans(this.#heldFrom, mine, theirs) === null;
  }

  async #keep(history: History): Promise<Meeting> {
    const key = this.#table.key();
    this.#table.put(history);
    this.#saver.touch();
    await this.#saver.flush();
    await this.#running;
    // another work may have come onto the table since: nobody can say then what became of this one
    return this.#saver.isDirty || key !== this.#table.key() ? "left" : "met";
  }
}

/** Whether everything stands where it stood in its list: the hand knows what it holds by that. */
function keepsPlaces(before: Plan, after: Plan): boolean {
  const names = (plan: Plan) =>
    [plan.lights, plan.panels, plan.people, plan.meters, plan.marks].map((list) => list.map((t) => t.name));
  const now = names(after);
  return names(before).every((list, i) => list.every((name, j) => now[i][j] === name));
}

function isWithin(history: History, plan: Plan): boolean {
  return history.steps.some((step) => isSamePlan(step.plan, plan));
}
