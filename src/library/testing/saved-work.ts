import type { SavedWork } from "../../workbench/index.ts";

/** A work whose parts all tell its key and revision: a mixture of two would show. Some are small, some fill many pages. */
export function savedWork(
  key: string,
  revision: number,
): SavedWork & { readonly plan: { readonly title: string; readonly notes: string } } {
  const mark = `${key} r${revision} `;
  return {
    revision,
    plan: { title: mark, notes: mark.repeat(1 + ((revision * 37) % 101)) },
    history: mark.repeat(1 + ((revision * 7919) % 6007)),
    by: `window ${mark}`,
  };
}
