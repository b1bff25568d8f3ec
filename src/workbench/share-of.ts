/** How far a part of a longer work is, as the whole is told. */
import type { WorkOptions } from "./ports.ts";

/** One of so many equal parts of the whole. */
export function shareOf(
  work: WorkOptions | undefined,
  step: number,
  steps: number,
  what: string,
): WorkOptions {
  const { onProgress, ...rest } = work ?? {};
  if (onProgress === undefined) return rest;
  return { ...rest, onProgress: ({ done }) => onProgress({ done: (step + done) / steps, what }) };
}
