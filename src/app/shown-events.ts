import type { Plan } from "../plan/index.ts";
import type { Bench } from "./bench.ts";

/** What is said in the page whenever the plan or what is shown of it changes. Plans are numbered as they come, 0 for
 * one that never was on the table (one light alone). */
export interface Shown {
  readonly plan: number;
  readonly reading: number;
  readonly readingQuality: string;
  readonly frame: number;
  readonly frameWidth: number;
  readonly floorMap: boolean;
  readonly busy: boolean;
}

export const SHOWN_EVENT = "tapemark-shown";

/** For those who measure how quickly the screen follows the hand (scripts/bench-app.mjs): an event costs nothing where
 * nobody listens, and unlike a performance mark is not kept. */
export function tellWhatIsShown({ session, results }: Pick<Bench, "session" | "results">): void {
  const numbers = new WeakMap<Plan, number>();
  let last = 0;
  let plan: Plan | null = null;
  const numberOf = (of: Plan | null) => (of === null ? 0 : (numbers.get(of) ?? 0));
  const tell = () => {
    const shown = results.store.get();
    if (session.get().plan !== plan) {
      plan = session.get().plan;
      // undone and done again it is news all the same
      numbers.set(plan, ++last);
    }
    const detail: Shown = {
      plan: last,
      reading: numberOf(shown.readingOf),
      readingQuality: shown.readingQuality,
      frame: numberOf(shown.frameOf),
      frameWidth: shown.frame?.width ?? 0,
      floorMap: shown.floorMap !== null,
      busy: Object.values(shown.busy).includes(true),
    };
    document.dispatchEvent(new CustomEvent<Shown>(SHOWN_EVENT, { detail }));
  };
  session.subscribe(tell);
  results.store.subscribe(tell);
}
