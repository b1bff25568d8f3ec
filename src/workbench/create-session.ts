import {
  applyEdit,
  begin,
  checkPlan,
  current,
  type Edit,
  type History,
  newPlan,
  type Plan,
  type Problem,
  parsePlan,
  record,
  redo,
  seal,
  serialisePlan,
  undo,
} from "../plan/index.ts";
import { isSamePlan, joinHistories, meetHistories, packHistory } from "./kept-history.ts";
import { type Loaded, loadWork, type OpenWork, readWork } from "./open-work.ts";
import type { SavedWork } from "./ports.ts";
import { Saver } from "./saver.ts";
import type { Meeting, Outcome, Saving, Session, SessionParts, SessionState } from "./session.ts";

const SAVE_DELAY_MS = 400;

/** A session on a new, empty plan. Open something next. */
export function createSession(parts: SessionParts): Session {
  return new PlanSession(parts);
}

/** What another keeper has of the work on the table, where somebody has to decide between the two. */
interface Question {
  readonly theirs: OpenWork;
  readonly answer: (meeting: Meeting) => void;
}

const CONFLICT: Saving = {
  state: "conflict",
  problem: "also changed elsewhere, in the same place",
  cure: "keep this plan or take the other: undo brings back either",
};

class PlanSession implements Session {
  readonly computer;
  readonly #store;
  readonly #saver: Saver;
  readonly #listeners = new Set<() => void>();
  readonly #unsaved = new Map<string, OpenWork>();
  #key = "";
  #history: History = begin(newPlan());
  #opened = "";
  #problems: readonly Problem[] = [];
  #saving: Saving = { state: "saved" };
  /** the plan that the store was last known to have */
  #base: Plan | null = null;
  #question: Question | null = null;
  #meeting: Promise<void> | null = null;
  #state: SessionState;

  constructor({ computer, store, scheduler, saveDelay_ms = SAVE_DELAY_MS, newKey }: SessionParts) {
    this.computer = computer;
    this.#store = store;
    this.#saver = new Saver({
      store,
      scheduler,
      delay_ms: saveDelay_ms,
      snapshot: () => ({
        plan: current(this.#history),
        history: packHistory(this.#history, this.#opened),
      }),
      key: () => this.#key,
      onKey: (key) => {
        this.#key = key;
        this.#tell();
      },
      onState: (saving) => {
        if (saving.state === "conflict") {
          this.#meeting ??= this.#meetStore(saving).finally(() => {
            this.#meeting = null;
          });
          return;
        }
        this.#saving = saving;
        this.#tell();
      },
      onKept: ({ plan }) => {
        this.#base = plan as Plan;
      },
      newKey,
    });
    this.#state = this.#derive();
  }

  get(): SessionState {
    return this.#state;
  }

  subscribe(listener: () => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  edit(edit: Edit, mergeKey?: string): Outcome {
    const edited = applyEdit(current(this.#history), edit);
    if (!edited.ok) return this.#refuse(edited.problems);
    return this.#change(record(this.#history, edit.label, edited.plan, mergeKey ?? null));
  }

  seal(): void {
    this.#history = seal(this.#history);
  }

  undo(): void {
    this.#change(undo(this.#history));
  }

  redo(): void {
    this.#change(redo(this.#history));
  }

  goTo(index: number): void {
    if (this.#history.steps[index] === undefined || index === this.#history.at) return;
    this.#change({ ...this.#history, at: index });
  }

  replace(text: string, label: string): Outcome {
    const parsed = parsePlan(text);
    if (!parsed.ok) return this.#refuse(parsed.problems);
    return this.#change(record(this.#history, label, parsed.plan));
  }

  text(): string {
    return serialisePlan(current(this.#history));
  }

  async open(key: string, text: string): Promise<Outcome> {
    const parsed = parsePlan(text);
    if (!parsed.ok) return this.#refuse(parsed.problems);
    await this.#putAside();
    const { work, failure } = await this.#load(key);
    this.#show(key, work ?? { history: begin(parsed.plan), opened: text, revision: 0 });
    if (work === null) {
      // kept from the start, so that the list of works shows it
      if (failure === null) this.#saver.touch();
      else this.#report(failure);
    } else if (work.opened !== text) {
      this.#opened = text;
      const isNews = !isSamePlan(current(work.history), parsed.plan);
      this.#change(isNews ? record(work.history, "file opened again", parsed.plan) : work.history, true);
    }
    return { ok: true };
  }

  async resume(key: string): Promise<Outcome> {
    await this.#putAside();
    const { work, failure, problems } = await this.#load(key);
    if (work === null) {
      const what = failure ?? `nothing is kept as "${key}"; open a plan file`;
      return this.#refuse(problems.length > 0 ? problems : [{ path: "plan", what }]);
    }
    this.#show(key, work);
    return { ok: true };
  }

  async createNew(plan?: Plan): Promise<void> {
    await this.#putAside();
    this.#show("", { history: begin(plan ?? newPlan()), opened: "", revision: 0 });
    if (plan) this.#saver.touch();
  }

  async flush(): Promise<void> {
    await this.#saver.flush();
    await this.#meeting;
  }

  async meet(key: string, saved: SavedWork, base: unknown): Promise<Meeting> {
    if (key === "" || key !== this.#key) return "absent";
    const theirs = readWork(saved);
    if (theirs === null) return "left";
    const checked = checkPlan(base);
    const met = meetHistories(this.#history, theirs.history, checked.ok ? checked.plan : null);
    if (met) {
      this.#change(met, true);
      await this.#saver.flush();
      return this.#saver.isDirty ? "left" : "met";
    }
    this.#question?.answer("left");
    return new Promise((answer) => {
      this.#question = { theirs, answer };
      this.#tell();
    });
  }

  keepMine(): Promise<void> {
    return this.#decide((theirs) => joinHistories(theirs.history, this.#history));
  }

  takeTheirs(): Promise<void> {
    return this.#decide((theirs) => {
      const joined = joinHistories(theirs.history, this.#history);
      return record(joined, "taken from elsewhere", current(theirs.history));
    }, true);
  }

  async close(): Promise<void> {
    await this.flush();
    this.#listeners.clear();
  }

  async #theirs(): Promise<{ work: OpenWork | null; revision: number }> {
    const saved = await this.#store.load(this.#key);
    return { work: saved && readWork(saved), revision: saved?.revision ?? 0 };
  }

  /** Both ways out of a conflict, with another keeper or with another window on the same store. */
  async #decide(join: (theirs: OpenWork) => History, isTaking = false): Promise<void> {
    const question = this.#question;
    if (question !== null) {
      this.#question = null;
      this.#change(join(question.theirs), true);
      await this.#saver.flush();
      question.answer(this.#saver.isDirty ? "left" : "met");
      return;
    }
    const theirs = await this.#theirs();
    if (theirs.work === null && theirs.revision > 0 && isTaking) {
      this.#saving = {
        state: "conflict",
        problem: "the other plan cannot be read here",
        cure: "keep this window's, or save this one as a file first",
      };
      this.#tell();
      return;
    }
    if (theirs.work) this.#history = join(theirs.work);
    this.#tell();
    await this.#saver.settle(theirs.revision);
  }

  /** Another window on the same store saved first: what touches other fields is taken in without a question. */
  async #meetStore(conflict: Saving): Promise<void> {
    await this.#saver.flush();
    const { work, revision } = await this.#theirs().catch(() => ({ work: null, revision: 0 }));
    const met = work && meetHistories(this.#history, work.history, this.#base);
    if (!met) {
      this.#saving = conflict;
      this.#tell();
      return;
    }
    this.#change(met, true);
    await this.#saver.settle(revision);
  }

  /** The work that is open leaves the table: saved, or held here until it can be. */
  async #putAside(): Promise<void> {
    await this.flush();
    if (!this.#saver.isDirty || this.#key === "") return;
    this.#unsaved.set(this.#key, {
      history: this.#history,
      opened: this.#opened,
      revision: this.#saver.revision,
    });
  }

  async #load(key: string): Promise<Loaded> {
    const held = this.#unsaved.get(key);
    return held ? { work: held, failure: null, problems: [] } : loadWork(this.#store, key);
  }

  #show(key: string, work: OpenWork): void {
    this.#key = key;
    this.#history = work.history;
    this.#opened = work.opened;
    this.#problems = [];
    this.#base = current(work.history);
    this.#question?.answer("left");
    this.#question = null;
    this.#saver.reset(work.revision);
    if (this.#unsaved.delete(key)) this.#saver.touch();
    this.#tell();
  }

  #change(history: History, isForced = false): Outcome {
    const changed = isForced || history !== this.#history;
    this.#history = history;
    this.#problems = [];
    if (changed) this.#saver.touch();
    this.#tell();
    return { ok: true };
  }

  #refuse(problems: readonly Problem[]): Outcome {
    this.#problems = problems;
    this.#tell();
    return { ok: false, problems };
  }

  #report(problem: string): void {
    this.#saving = { state: "failed", problem, cure: "the plan is open all the same; save it as a file" };
    this.#tell();
  }

  #derive(): SessionState {
    const { steps, at } = this.#history;
    return {
      key: this.#key,
      plan: current(this.#history),
      undoLabel: at > 0 ? steps[at].label : null,
      redoLabel: at + 1 < steps.length ? steps[at + 1].label : null,
      steps,
      at,
      problems: this.#problems,
      saving: this.#question === null ? this.#saving : CONFLICT,
    };
  }

  #tell(): void {
    this.#state = this.#derive();
    for (const listener of [...this.#listeners]) listener();
  }
}
