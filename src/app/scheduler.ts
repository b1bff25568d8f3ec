import type { Scheduler } from "../workbench/index.ts";

/** By the browser's own clock. */
export const scheduler: Scheduler = {
  after(delay_ms, run) {
    const timer = setTimeout(run, delay_ms);
    return () => clearTimeout(timer);
  },
};
