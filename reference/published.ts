/// <reference types="vite/types/importMeta.d.ts" />
/** Every published check of this folder, ours beside it. scripts/accuracy.mjs bundles this: it is what `npm run accuracy`
 * prints and what `npm test` counts. */
import { type Check, difference, isAbsolute } from "./checks.ts";

export interface Measured {
  readonly check: Check;
  readonly ours: number;
  readonly off: number;
  /** share of the tolerance that is used up; over 1 is outside. One of 0 is kept whole or is broken */
  readonly used: number;
  readonly isAbsolute: boolean;
}

const found = import.meta.glob<{ checks: readonly Check[] }>("./*.checks.ts");

/** Errors  a file without checks; two checks of one name [RF2] */
export async function measureAll(): Promise<Measured[]> {
  const measured: Measured[] = [];
  const names = new Set<string>();
  for (const path of Object.keys(found).sort()) {
    const { checks } = await found[path]();
    if (checks.length === 0) throw new Error(`${path} has nothing to check`);
    for (const check of checks) {
      if (names.has(check.id)) throw new Error(`two published checks are called ${check.id}`);
      names.add(check.id);
      const ours = await check.ours();
      const off = difference(check, ours);
      measured.push({
        check,
        ours,
        off,
        used: off === 0 ? 0 : off / check.tolerance,
        isAbsolute: isAbsolute(check),
      });
    }
  }
  return measured;
}
