/** What this browser remembers beside the works: which one was on the table, and its own name. Storage that is closed
 * forgets; nothing else depends on it. */

const LAST = "tapemark.last";
const SELF = "tapemark.browser";
const TAB = "tapemark.tab";

/** What a tab had on the table, and the plan that the command line had named then ("" for none). */
export interface TabMemory {
  readonly named: string;
  readonly key: string;
}

export function recallTab(): TabMemory | null {
  try {
    const value = JSON.parse(sessionStorage.getItem(TAB) ?? "null") as Partial<TabMemory> | null;
    return typeof value?.named === "string" && typeof value.key === "string" ? (value as TabMemory) : null;
  } catch {
    return null;
  }
}

export const recallLast = (): string | null => quietly(() => localStorage.getItem(LAST)) ?? null;

export function rememberTable(tab: TabMemory): void {
  quietly(() => sessionStorage.setItem(TAB, JSON.stringify(tab)));
  quietly(() => localStorage.setItem(LAST, tab.key));
}

/** Names this browser among those that save with one server. */
export function ownName(): string {
  const known = quietly(() => localStorage.getItem(SELF));
  if (known) return known;
  const name = crypto.randomUUID();
  quietly(() => localStorage.setItem(SELF, name));
  return name;
}

/** A key that no other new plan has, in this browser or another. */
export function newKey(now: Date): string {
  const day = now.toISOString().slice(0, 10).replaceAll("-", "");
  return `plan-${day}-${crypto.randomUUID().slice(0, 8)}`;
}

function quietly<T>(act: () => T): T | undefined {
  try {
    return act();
  } catch {
    return undefined;
  }
}
