/** How long work says how far it is, and how it is stopped. */

/** Called now and then with the share that is done; returns false to stop. */
export type KeepGoing = (done: number) => boolean;

export class Stopped extends Error {
  constructor() {
    super("stopped");
    this.name = "Stopped";
  }
}

/** Says how far a part of the work is and stops it where the caller wants no more.
 * Errors  Stopped */
export function step(keepGoing: KeepGoing, done: number) {
  if (!keepGoing(done)) throw new Stopped();
}

/** The same for a part of the work that runs from `from` to `to` of the whole. */
export function within(keepGoing: KeepGoing, from: number, to: number): KeepGoing {
  return (done) => keepGoing(from + (to - from) * done);
}
