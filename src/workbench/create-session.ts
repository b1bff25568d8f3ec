import {
  applyEdit,
  begin,
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
import { packHistory } from "./kept-history.ts";
import { isSamePlan } from "./meet-histories.ts";
import { Meetings } from "./meetings.ts";
import type { OpenWork } from "./open-work.ts";
import type { SavedWork } from "./ports.ts";
import { Saver } from "./saver.ts";
import type { Meeting, Outcome, Saving, Session, SessionParts, SessionState } from "./session.ts";
import { type HeldWork, Turns } from "./turns.ts";

const SAVE_DELAY_MS = 400;

/** A session on a new, empty plan. Open something next. */
export function createSession(parts: SessionParts): Session {
  return new PlanSession(parts);
}

class PlanSession implements Session {
  readonly computer;
  readonly #saver: Saver;
  readonly #listeners = new Set<() => void>();
  #key = "";
  #history: History = begin(newPlan());
  #opened = "";
  #problems: readonly Problem[] = [];
  #saving: Saving = { state: "saved" };
  readonly #meetings: Meetings;
  readonly #turns: Turns;
  #state: SessionState;

  constructor({ computer, store, scheduler, saveDelay_ms = SAVE_DELAY_MS, newKey }: SessionParts) {
    this.computer = computer;
    this.#saver = new Saver({
      store,
      scheduler,
      delay_ms: saveDelay_ms,
      snapshot: () => {
        const kept = this.#meetings.toKeep();
        return { plan: current(kept), history: packHistory(kept, this.#opened) };
      },
      key: () => this.#key,
      onKey: (key) => {
        this.#key = key;
        this.#tell();
      },
      onState: (saving) => {
        if (saving.state === "conflict") return void this.#meetings.meetStore();
        this.#saving = saving;
        this.#tell();
      },
      onKept: ({ plan }) => {
        this.#meetings.base = plan as Plan;
      },
      newKey,
    });
    const table = {
      key: () => this.#key,
      history: () => this.#history,
      put: (history: History, opened = this.#opened) => {
        this.#history = history;
        this.#opened = opened;
        this.#tell();
      },
      tell: () => this.#tell(),
    };
    this.#meetings = new Meetings(table, this.#saver, store);
    this.#turns = new Turns({
      store,
      key: table.key,
      changes: () => this.#saver.changes,
      flush: () => this.flush(),
      unsaved: () => this.#unsaved(),
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
    if (mergeKey === undefined) this.#meetings.letGo();
    else this.#meetings.hold();
    return this.#change(record(this.#history, edit.label, edited.plan, mergeKey ?? null));
  }

  seal(): void {
    this.#history = seal(this.#history);
    this.#meetings.letGo();
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

  open(key: string, text: string): Promise<Outcome> {
    return this.#turns.take(() => this.#open(key, text));
  }

  resume(key: string): Promise<Outcome> {
    return this.#turns.take(() => this.#resume(key));
  }

  createNew(plan?: Plan): Promise<void> {
    return this.#turns.take(() => this.#createNew(plan));
  }

  async #open(key: string, text: string): Promise<Outcome> {
    const parsed = parsePlan(text);
    if (!parsed.ok) return this.#refuse(parsed.problems);
    const { work, failure } = await this.#turns.bring(key);
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

  async #resume(key: string): Promise<Outcome> {
    const { work, failure, problems } = await this.#turns.bring(key);
    if (work === null) {
      const what = failure ?? `nothing is kept as "${key}"; open a plan file`;
      return this.#refuse(problems.length > 0 ? problems : [{ path: "plan", what }]);
    }
    this.#show(key, work);
    return { ok: true };
  }

  async #createNew(plan?: Plan): Promise<void> {
    await this.#turns.leave();
    this.#show("", { history: begin(plan ?? newPlan()), opened: "", revision: 0 });
    if (plan) this.#saver.touch();
  }

  async flush(): Promise<void> {
    this.#meetings.letGo();
    await this.#saver.flush();
    await this.#meetings.settled();
  }

  meet(key: string, saved: SavedWork, base: unknown): Promise<Meeting> {
    return this.#meetings.meet(key, saved, base);
  }

  see(key: string, kept: SavedWork): Promise<void> {
    return this.#meetings.see(key, kept);
  }

  keepMine(): Promise<void> {
    return this.#meetings.decide(false);
  }

  takeTheirs(): Promise<void> {
    return this.#meetings.decide(true);
  }

  async close(): Promise<void> {
    await this.flush();
    this.#listeners.clear();
  }

  #unsaved(): HeldWork | null {
    const { base, clash } = this.#meetings;
    if (!this.#saver.isDirty && clash === null) return null;
    return { history: this.#history, opened: this.#opened, revision: this.#saver.revision, base, clash };
  }

  #show(key: string, work: OpenWork): void {
    this.#key = key;
    this.#history = work.history;
    this.#opened = work.opened;
    this.#problems = [];
    const held = this.#turns.pickUp(key);
    this.#meetings.reset(held === null ? current(work.history) : held.base, held?.clash ?? null);
    this.#saver.reset(work.revision);
    if (held !== null) this.#saver.touch();
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
      saving: this.#meetings.asking ?? this.#saving,
    };
  }

  #tell(): void {
    this.#state = this.#derive();
    for (const listener of [...this.#listeners]) listener();
  }
}
