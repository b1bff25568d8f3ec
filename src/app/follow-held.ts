/** What is held stays held when lists change under it, in this window or in another: things are known by their names. */
import type { Plan } from "../plan/index.ts";
import type { Bench, View } from "./bench.ts";

const OWNER = /^(lights|panels|people|meters|marks|readings)\[(\d+)\]$/;
type List = "lights" | "panels" | "people" | "meters" | "marks" | "readings";

/** Where what was `owner` in one plan stands in the next; null where it is gone. One that was only renamed keeps its place. */
export function ownerAfter(before: Plan, after: Plan, owner: string): string | null {
  const [, list, index] = OWNER.exec(owner) ?? [];
  if (list === undefined) return owner;
  const [was, now] = [before, after].map((plan) => plan[list as List].map(({ name }) => name));
  const name = was[Number(index)];
  const at = name === undefined ? -1 : now.indexOf(name);
  if (at >= 0) return `${list}[${at}]`;
  return name === undefined || was.length === now.length ? owner : null;
}

export function followHeld({ session, view }: Bench): void {
  let { plan } = session.get();
  let { key } = session.get();
  session.subscribe(() => {
    const [before, after] = [plan, session.get().plan];
    const isOther = key !== session.get().key;
    plan = after;
    key = session.get().key;
    if (before === after || isOther) return;
    const change = heldAfter(before, after, view.get());
    if (change !== null) view.update(change);
  });
}

function heldAfter(before: Plan, after: Plan, view: View): Partial<View> | null {
  const follow = (owner: string | null) => owner && ownerAfter(before, after, owner);
  const also = view.also.flatMap((owner) => follow(owner) ?? []);
  const person = follow(`people[${view.person}]`);
  const next = {
    selected: follow(view.selected) ?? also.shift() ?? null,
    also,
    reference: follow(view.reference),
    person: person === null ? 0 : Number(OWNER.exec(person)?.[2]),
  };
  const isSame =
    next.selected === view.selected &&
    next.reference === view.reference &&
    next.person === view.person &&
    next.also.join() === view.also.join();
  return isSame ? null : next;
}
