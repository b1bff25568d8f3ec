/** `tapemark contact`: the small moves from a plan as it stands, seen side by side, for teaching. */
import type { Plan } from "../plan/index.ts";
import { contactPage, PAPER_SIZE } from "../sheet/index.ts";
import { contactLacks, makeContact, WorkError } from "../workbench/index.ts";
import { onThreads, outOption, planAt, type Surroundings } from "./around.ts";
import { onePlan, paperOption, readCall, unitsOption } from "./call.ts";
import { writeOutput } from "./output.ts";

export async function contact(words: readonly string[], around: Surroundings): Promise<number> {
  const form = {
    out: { type: "string" },
    person: { type: "string" },
    paper: { type: "string" },
    units: { type: "string" },
    date: { type: "string" },
  } as const;
  const call = readCall(words, form, "contact");
  const { values } = call;
  const out = outOption(values.out, "contact", ["pdf", "png", "svg"]);
  const paper = paperOption(values.paper);
  const units = unitsOption(values.units);
  const plan = await planAt(onePlan(call, "contact"), around);
  if (!plan) return 1;
  const lacking = contactLacks(plan);
  if (lacking !== null) throw lacking;
  const person = typeof values.person === "string" ? personCalled(plan, values.person) : 0;
  const sheet = await onThreads(around, "before the contact sheet was made", (lookers, work) =>
    makeContact(lookers, plan, { person, units }, work),
  );
  const date = typeof values.date === "string" ? { date: values.date } : {};
  const page = contactPage(sheet, { paper, ...date });
  writeOutput(out.path, await contactFile(page, out.ending, paper, plan.title));
  return 0;
}

/** The page as a file of that kind; what it takes is loaded only here. */
export async function contactFile(
  page: string,
  ending: string,
  paper: "a4" | "letter",
  title: string,
): Promise<Uint8Array> {
  if (ending === "png") return (await import("./page-png.ts")).pageToPng(page);
  if (ending === "pdf") return (await import("./pdf.ts")).pagesToPdf([page], PAPER_SIZE[paper], title);
  return Buffer.from(page);
}

function personCalled(plan: Plan, name: string): number {
  const index = plan.people.findIndex((person) => person.name === name);
  if (index >= 0) return index;
  const names = plan.people.map((person) => person.name);
  throw new WorkError(`--person: nobody in the plan is called "${name}"`, `name one of: ${names.join(", ")}`);
}
