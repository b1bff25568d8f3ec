import { WorkError } from "../workbench/index.ts";

/** Why something was not done, with its cure, in one line for people. */
export function troubleOf(error: unknown): string {
  if (error instanceof WorkError) return error.message;
  return "the answer could not be read; load the page anew";
}
