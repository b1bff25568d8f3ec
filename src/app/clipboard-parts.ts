/** Parts of a plan as text: copied in one plan, pasted in another, in this window, the next one or a mail. */
import {
  checkPlan,
  type Edit,
  FORMAT,
  type ListName,
  type Plan,
  type Problem,
  VERSION,
} from "../plan/index.ts";

export const PARTS_FORMAT = "tapemark/parts";

/** What can be copied: everything that a plan has several of. */
const LISTS = ["lights", "panels", "people", "meters", "marks"] as const satisfies readonly ListName[];
type Entry = Readonly<Record<string, unknown>> & {
  readonly name: string;
  readonly position: readonly number[];
};

interface Held {
  readonly list: ListName;
  readonly index: number;
}

/** The entries among `owners` that can be copied, in the order of the plan. */
export function copyable(plan: Plan, owners: readonly (string | null)[]): Held[] {
  return LISTS.flatMap((list) =>
    plan[list].flatMap((_, index) => (owners.includes(`${list}[${index}]`) ? [{ list, index }] : [])),
  );
}

export function copyParts(plan: Plan, held: readonly Held[]): string {
  const parts: Record<string, unknown> = { format: PARTS_FORMAT, version: VERSION };
  for (const list of LISTS) {
    const entries = held.filter((each) => each.list === list).map(({ index }) => plan[list][index]);
    if (entries.length > 0) parts[list] = entries.map(unplugged);
  }
  const files = held.flatMap(({ list, index }) => (list === "lights" ? filesOf(plan.lights[index]) : []));
  const texts = files.flatMap((name) => {
    const text = plan.photometry?.[name];
    return text === undefined ? [] : [[name, text] as const];
  });
  if (texts.length > 0) parts.photometry = Object.fromEntries(texts);
  return `${JSON.stringify(parts, null, 2)}\n`;
}

/** The circuit that a head is plugged into belongs to the room, and stays there. */
function unplugged(entry: Plan[(typeof LISTS)[number]][number]): typeof entry {
  if (!("output" in entry) || entry.head === null) return entry;
  return { ...entry, head: { ...entry.head, circuit: null } };
}

/** Takes all of them out of the plan, as one step. */
export function cutEdit(plan: Plan, held: readonly Held[]): Edit {
  const lists = [...new Set(held.map(({ list }) => list))];
  const fields = lists.map((list) => {
    const gone = new Set(held.filter((each) => each.list === list).map(({ index }) => index));
    return { path: [list], value: (plan[list] as readonly unknown[]).filter((_, i) => !gone.has(i)) };
  });
  return { kind: "set", label: `cut ${namesOf(plan, held)}`, fields };
}

export function namesOf(plan: Plan, held: readonly Held[]): string {
  const names = held.map(({ list, index }) => plan[list][index].name);
  return names.length <= 3
    ? names.join(", ")
    : `${names.slice(0, 2).join(", ")} and ${names.length - 2} more`;
}

export type Pasted =
  | {
      readonly ok: true;
      readonly edit: Edit;
      /** what came in, as owners in the plan after the edit */
      readonly owners: readonly string[];
      /** what was done to make it fit, one line each */
      readonly notes: readonly string[];
    }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** Whether a text says of itself that it is parts of a plan: anything else on the clipboard is not for us. */
export function isParts(text: string): boolean {
  return text.length < 1_000_000 && text.includes(`"${PARTS_FORMAT}"`);
}

/** The text's parts added to the plan as one edit. Each gets a free name; what would stand outside the room is moved
 * to the nearest place inside. Checked like any plan. */
export function pasteParts(plan: Plan, text: string): Pasted {
  const parts = read(text);
  if (!parts.ok) return parts;
  const checked = checkPlan({ ...parts.value, format: FORMAT, version: VERSION, room: null });
  if (!checked.ok) return checked;
  const notes: string[] = [];
  const owners: string[] = [];
  const came: string[] = [];
  const fields: { path: string[]; value: unknown }[] = [];
  for (const list of LISTS) {
    if (checked.plan[list].length === 0) continue;
    const taken = new Set(plan[list].map((entry) => entry.name));
    const added = (checked.plan[list] as unknown as readonly Entry[]).map((entry, i) => {
      const name = freeName(taken, entry.name);
      taken.add(name);
      owners.push(`${list}[${plan[list].length + i}]`);
      came.push(name);
      const position = insideRoom(plan, entry.position);
      const stays = position.every((v, k) => v === entry.position[k]);
      if (!stays) notes.push(`${name} stood outside this room and was moved in`);
      return { ...entry, name, position };
    });
    fields.push({ path: [list], value: [...plan[list], ...added] });
  }
  if (came.length === 0)
    return refused("holds nothing to paste: copy a light, panel, person, meter or mark first");
  const files = checked.plan.photometry ?? {};
  const other = Object.keys(files).find((name) => (plan.photometry?.[name] ?? files[name]) !== files[name]);
  if (other !== undefined)
    return refused(
      `brings another file named ${other} than this plan has; rename one of the two`,
      "photometry",
    );
  if (Object.keys(files).length > 0)
    fields.push({ path: ["photometry"], value: { ...plan.photometry, ...files } });
  const label = `paste ${came.length <= 3 ? came.join(", ") : `${came.length} things`}`;
  return { ok: true, edit: { kind: "set", label, fields }, owners, notes };
}

type Read =
  | { readonly ok: true; readonly value: object }
  | { readonly ok: false; readonly problems: Problem[] };

function read(text: string): Read {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return refused("is torn: it is not whole JSON. Copy it again");
  }
  if (typeof value !== "object" || value === null || !("format" in value) || value.format !== PARTS_FORMAT)
    return refused(`is no parts of a plan: it must begin { "format": "${PARTS_FORMAT}" … }`);
  const { version } = value as { version?: unknown };
  if (typeof version === "number" && version > VERSION)
    return refused(
      `was copied in a newer Tapemark (version ${version}; this one reads ${VERSION}); update`,
      "version",
    );
  const known: ReadonlySet<string> = new Set(["format", "version", "photometry", ...LISTS]);
  const odd = Object.keys(value).find((key) => !known.has(key));
  if (odd !== undefined) return refused("is nothing that can be pasted; leave it away", odd);
  return { ok: true, value };
}

function refused(what: string, path = "clipboard"): { ok: false; problems: Problem[] } {
  return { ok: false, problems: [{ path, what }] };
}

function filesOf({ beam }: Plan["lights"][number]): string[] {
  return beam.photometry === undefined ? [] : [beam.photometry];
}

/** key, key 2, key 3: a number that is there already is counted on. */
function freeName(taken: ReadonlySet<string>, name: string): string {
  if (!taken.has(name)) return name;
  const stem = name.replace(/ \d+$/, "");
  let n = 2;
  while (taken.has(`${stem} ${n}`)) n++;
  return `${stem} ${n}`;
}

function insideRoom(plan: Plan, position: readonly number[]): number[] {
  const { room } = plan;
  if (room === null) return [...position];
  const most = [room.width, room.depth, room.height];
  return position.map((value, k) => Math.min(Math.max(value, 0), most[k]));
}
