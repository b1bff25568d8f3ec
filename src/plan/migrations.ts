/** How a plan of an earlier version becomes one of the next. */
import type { Loose } from "./fill-in.ts";

export interface Migration {
  readonly from: number;
  /** gets a copy of its own; must not fail on a plan of that version that is wrong elsewhere */
  readonly change: (plan: Record<string, unknown>) => Record<string, unknown>;
}

/** Version 1 is the first: there is nothing to bring forward yet. */
export const MIGRATIONS: readonly Migration[] = [];

/** The plan at the target version; null where no way leads there. */
export function migrate(plan: Loose, target: number, migrations: readonly Migration[]): Loose | null {
  let current = plan;
  for (let version = plan.version as number; version < target; version++) {
    const step = migrations.find((m) => m.from === version);
    if (!step) return null;
    try {
      current = { ...step.change(JSON.parse(JSON.stringify(current))), version: version + 1 };
    } catch {
      // too broken to be brought forward; nothing better is known than that it is not a plan of its version
      return null;
    }
  }
  return current;
}
