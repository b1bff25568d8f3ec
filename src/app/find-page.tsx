import type { Bench } from "./bench.ts";
import type { FileActions } from "./file-actions.ts";

/** Set-ups for a brief: what is wanted and what there is, the search, and what it found side by side. */
export function FindPage(_: { readonly bench: Bench; readonly files: FileActions }) {
  return <main class="find" />;
}
