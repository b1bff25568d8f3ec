/** Which thing of a list is which from one drawing to the next: another window may take one away above the one that is typed in. */
import { useRef } from "preact/hooks";

export interface Keyed {
  readonly name: string;
  readonly key: number;
}

/** By its name; one whose name is gone, with a new one in its place, was renamed and stays who it is. */
export function keysFor(before: readonly Keyed[], names: readonly string[]): Keyed[] {
  let free = Math.max(-1, ...before.map(({ key }) => key)) + 1;
  const known = new Map(before.map(({ name, key }) => [name, key]));
  const now = new Set(names);
  return names.map((name, i) => {
    const old = before[i];
    const isRenamed = before.length === names.length && old !== undefined && !now.has(old.name);
    return { name, key: known.get(name) ?? (isRenamed ? old.key : free++) };
  });
}

export function useKeys(names: readonly string[]): readonly number[] {
  const kept = useRef<readonly Keyed[]>([]);
  kept.current = keysFor(kept.current, names);
  return kept.current.map(({ key }) => key);
}
