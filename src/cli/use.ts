/** `tapemark use`: whether the picture is good enough at its final size. */
import {
  EYE_NOTE,
  type FinalUse,
  finalUse,
  NAMED_USES,
  notesOf,
  smearWords,
  useFacts,
  useTitle,
} from "../deliver/index.ts";
import type { Plan } from "../plan/index.ts";
import type { LengthUnits } from "../units/index.ts";
import { WorkError } from "../workbench/index.ts";
import { planAt, type Surroundings } from "./around.ts";
import { CallError, nearest, onePlan, readCall, unitsOption } from "./call.ts";

export async function use(words: readonly string[], around: Surroundings): Promise<number> {
  const form = {
    for: { type: "string" },
    focus: { type: "string" },
    units: { type: "string" },
    json: { type: "boolean" },
  } as const;
  const call = readCall(words, form, "use");
  const { values } = call;
  const path = onePlan(call, "use");
  const units = unitsOption(values.units);
  const named = values.for === undefined ? null : namedUse(String(values.for));
  const written = await planAt(path, around);
  if (written === null) return 1;
  const plan: Plan = named === null ? written : { ...written, print: { ...named, cropWidth: null } };
  const found = finalUse(plan, focused(plan, values.focus));
  if (found === null)
    throw new WorkError(
      `${path} does not say what its picture is for`,
      'give it a finished size, "print": { "width": 1.2, "height": 1.8 } in metres, or name a use with --for',
    );
  around.out(values.json === true ? `${JSON.stringify(found, null, 2)}\n` : text(plan, found, units));
  return 0;
}

function namedUse(name: string) {
  const names = NAMED_USES.map((each) => each.name);
  const found = NAMED_USES.find((each) => each.name === name.trim().toLowerCase());
  if (found !== undefined) return found.print;
  const near = nearest(name, names);
  throw new CallError(
    `--for: "${name}" is no named use; ${near ? `did you mean "${near}"?` : `there are ${names.join(", ")}`}`,
  );
}

function focused({ people }: Plan, name: unknown): number {
  if (typeof name !== "string") return 0;
  const index = people.findIndex((person) => person.name === name);
  if (index >= 0) return index;
  const names = people.map((person) => person.name);
  const cure =
    names.length === 0 ? "nobody stands in the plan" : `it has ${names.map((n) => `"${n}"`).join(", ")}`;
  throw new CallError(`--focus: nobody in the plan is called "${name}"; ${cure}`);
}

function text(plan: Plan, found: FinalUse, units: LengthUnits): string {
  const lines = [plan.title, useTitle(found, units), ""];
  const facts = useFacts(found, units);
  const wide = Math.max(...facts.map(({ term }) => term.length));
  for (const { rest, strong, term } of facts) lines.push(`${term.padEnd(wide)}  ${strong}: ${rest}`);
  lines.push("");
  for (const smear of found.smears) {
    const { file, remedy, size, state } = smearWords(found, smear, units);
    lines.push(`${smear.what}: ${size}${file === null ? "" : `, ${file}`}`, `  ${state}`);
    if (remedy !== null) lines.push(`  ${remedy}`);
  }
  lines.push("", ...notesOf(found, units), EYE_NOTE);
  return `${lines.join("\n")}\n`;
}
