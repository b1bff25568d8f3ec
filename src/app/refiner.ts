/** Coarse at once, finer when still: the rule by which everything that is computed follows the hand.
 *
 * At most one job runs and at most one input waits. A job of the first level is let finish, so that something
 * is always shown while dragging; a job of a later level is stopped as soon as there is something newer. */
export interface RefinerOptions<Input, Output, Level> {
  /** from the quickest to the best; at least one */
  readonly levels: readonly Level[];
  readonly compute: (input: Input, level: Level, signal: AbortSignal) => Promise<Output>;
  /** called only for results of the newest input, except at the first level, where an older one is still news */
  readonly show: (output: Output, level: Level, input: Input) => void;
  readonly fail: (error: unknown) => void;
  /** how long the input must be unchanged before the second level starts */
  readonly still_ms: number;
  /** told whenever work starts or the last level is reached */
  readonly onBusy: (busy: boolean) => void;
}

interface Run<Input> {
  readonly input: Input;
  readonly levelIndex: number;
  readonly stop: AbortController;
}

export class Refiner<Input, Output, Level> {
  readonly #options: RefinerOptions<Input, Output, Level>;
  #latest: Input | null = null;
  #running: Run<Input> | null = null;
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(options: RefinerOptions<Input, Output, Level>) {
    this.#options = options;
  }

  ask(input: Input): void {
    this.#latest = input;
    clearTimeout(this.#timer);
    if (this.#running === null) this.#start(input, 0);
    else if (this.#running.levelIndex > 0) {
      this.#running.stop.abort();
      this.#start(input, 0);
    }
  }

  /** Forget the input and stop what runs, without a word: whoever clears knows whether there will be more. */
  clear(): void {
    this.#latest = null;
    clearTimeout(this.#timer);
    this.#running?.stop.abort();
    this.#running = null;
  }

  #start(input: Input, levelIndex: number): void {
    const run = { input, levelIndex, stop: new AbortController() };
    this.#running = run;
    this.#options.onBusy(true);
    const level = this.#options.levels[levelIndex] as Level;
    this.#options.compute(input, level, run.stop.signal).then(
      (output) => this.#done(run, level, output),
      (error: unknown) => this.#failed(run, error),
    );
  }

  #done(run: Run<Input>, level: Level, output: Output): void {
    if (this.#running !== run) return;
    this.#running = null;
    this.#options.show(output, level, run.input);
    if (this.#latest !== run.input) this.#start(this.#latest as Input, 0);
    else if (run.levelIndex + 1 < this.#options.levels.length) {
      const wait = run.levelIndex === 0 ? this.#options.still_ms : 0;
      this.#timer = setTimeout(() => this.#start(run.input, run.levelIndex + 1), wait);
    } else this.#options.onBusy(false);
  }

  #failed(run: Run<Input>, error: unknown): void {
    if (this.#running !== run) return;
    this.#running = null;
    if (this.#latest !== run.input) {
      this.#start(this.#latest as Input, 0);
      return;
    }
    this.#options.onBusy(false);
    this.#options.fail(error);
  }
}
