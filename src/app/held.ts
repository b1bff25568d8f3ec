/** What is held on the table, and what is asked of it by button and by key. */
import type { Edit } from "../plan/index.ts";
import { type Bench, holdThese, makeEdit } from "./bench.ts";
import { type Command, commandEdit, ownerAfter, pinnedWords, unpinned } from "./commands.ts";
import { chosenPerson } from "./layer-height.ts";
import { heldObjects, type PlanObject } from "./objects.ts";

export function heldOn(bench: Bench): PlanObject[] {
  return heldObjects(bench.session.get().plan, bench.view.get());
}

/** Make an edit of what is held and not pinned; where pins keep something where it is, that is said. */
export function editHeld(
  bench: Bench,
  mergeKey: string,
  edit: (free: readonly PlanObject[]) => Edit | null,
): void {
  const held = heldOn(bench);
  const free = unpinned(held);
  const made = free.length === 0 ? null : edit(free);
  const refused = made === null ? null : makeEdit(bench, made, mergeKey);
  tell(bench, refused ?? pinnedWords(held));
}

export function runCommand(bench: Bench, command: Command): void {
  const { plan } = bench.session.get();
  const view = bench.view.get();
  const asked = commandEdit(plan, heldOn(bench), command, chosenPerson(plan, view));
  const refused = asked.edit === null ? null : makeEdit(bench, asked.edit);
  if (asked.edit !== null && refused === null) {
    const gone = asked.gone ?? [];
    if (asked.holds !== undefined) holdThese(bench, asked.holds);
    if (gone.length > 0) {
      const person = ownerAfter(`people[${view.person}]`, gone);
      bench.view.update({
        alone: ownerAfter(view.alone, gone),
        reference: ownerAfter(view.reference, gone),
        person: Number(/\d+/.exec(person ?? "0")?.[0]),
      });
    }
    bench.say.set(asked.edit.label);
  }
  tell(bench, refused ?? asked.why);
}

/** Shown beside the commands until something else is held or done, and said once. */
function tell(bench: Bench, stays: string | null): void {
  if ((bench.view.get().stays ?? null) === stays) return;
  bench.view.update({ stays });
  if (stays !== null) bench.say.set(stays);
}
