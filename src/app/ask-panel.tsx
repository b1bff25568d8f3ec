import type { Plan } from "../plan/index.ts";
import type { Bench } from "./bench.ts";

/** A wish about the light as it stands, and the smallest changes that reach it; every small step and what it changes. */
export function AskPanel(_: { readonly bench: Bench; readonly plan: Plan }) {
  return null;
}
