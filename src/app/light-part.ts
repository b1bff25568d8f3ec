import type { Light } from "../plan/index.ts";
import { type Bench, makeEdit } from "./bench.ts";

/** What each group of a light's numbers is given. */
export interface LightPart {
  readonly bench: Bench;
  readonly index: number;
  readonly light: Light;
}

/** Put some of a light's fields, as one step. */
export function putLight(
  bench: Bench,
  index: number,
  label: string,
  patch: Partial<Light>,
  mergeKey?: string,
): string | null {
  const fields = Object.entries(patch).map(([field, value]) => ({ path: ["lights", index, field], value }));
  return makeEdit(bench, { kind: "set", label, fields }, mergeKey);
}
