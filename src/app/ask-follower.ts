/** Works one thing out beside the plan, and keeps what was worked out until something newer is. */
import type { Plan } from "../plan/index.ts";
import type { AboutPerson, Progress, WorkOptions } from "../workbench/index.ts";
import { Store } from "./store.ts";

/** What all of it is about; the same object as long as nothing of it changes. */
export interface About extends AboutPerson {
  readonly plan: Plan;
}

/** What is to be worked out: the same object is the same question. */
export interface Question<T> {
  readonly about: About;
  readonly work: (options: WorkOptions) => Promise<T>;
}

export interface Worked<T> {
  /** share that is done; null while nothing is worked on */
  readonly done: number | null;
  readonly answer: { readonly to: Question<T>; readonly is: T } | null;
  readonly failure: string | null;
  readonly isStopped: boolean;
}

/** A plan under the hand changes with every move of it: only what has stood still for so long is asked about. */
export const SETTLED_MS = 300;

export class AskFollower<T> {
  readonly store = new Store<Worked<T>>({ done: null, answer: null, failure: null, isStopped: false });
  readonly #later: (work: () => void) => () => void;
  #asked: Question<T> | null = null;
  #drop: (() => void) | null = null;

  /** `later` calls back once, when things have stood still; what it returns calls that off. */
  constructor(later: (work: () => void) => () => void = afterRest) {
    this.#later = later;
  }

  /** Null: nothing is wanted for now; what was answered stays. */
  follow(question: Question<T> | null): void {
    if (question === this.#asked) return;
    this.#end();
    this.#asked = question;
    this.store.update({ done: question === null ? null : 0, failure: null, isStopped: false });
    if (question !== null) this.#drop = this.#later(() => this.#start(question));
  }

  stop(): void {
    this.#end();
    this.store.update({ done: null, isStopped: true });
  }

  /** What was stopped or has failed, once more. */
  again(): void {
    const question = this.#asked;
    this.#asked = null;
    this.follow(question);
  }

  #end(): void {
    this.#drop?.();
    this.#drop = null;
  }

  #start(question: Question<T>): void {
    const stop = new AbortController();
    this.#drop = () => stop.abort();
    const onProgress = ({ done }: Progress) => {
      // in hundredths: what is shown of it changes no oftener
      const hundredths = Math.floor(100 * done) / 100;
      if (!stop.signal.aborted && hundredths !== this.store.get().done)
        this.store.update({ done: hundredths });
    };
    question.work({ signal: stop.signal, onProgress }).then(
      (is) => {
        if (!stop.signal.aborted) this.store.update({ done: null, answer: { to: question, is } });
      },
      (error: unknown) => {
        if (stop.signal.aborted) return;
        this.store.update({ done: null, failure: error instanceof Error ? error.message : String(error) });
      },
    );
  }
}

function afterRest(work: () => void): () => void {
  const timer = setTimeout(work, SETTLED_MS);
  return () => clearTimeout(timer);
}
