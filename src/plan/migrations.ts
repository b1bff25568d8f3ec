/** How a plan of an earlier version becomes one of the next. */
export interface Migration {
  readonly from: number;
  readonly change: (plan: Record<string, unknown>) => Record<string, unknown>;
}

/** Version 1 is the first: there is nothing to bring forward yet. */
export const MIGRATIONS: readonly Migration[] = [];

export function migrate(
  plan: Record<string, unknown>,
  target: number,
  migrations: readonly Migration[],
): Record<string, unknown> {
  let current = plan;
  while (typeof current.version === "number" && current.version < target) {
    const version = current.version;
    const step = migrations.find((m) => m.from === version);
    if (!step) return current;
    current = { ...step.change(current), version: version + 1 };
  }
  return current;
}
