/** `tapemark photo`: what a camera saw, one photograph after the other. */
import { availableParallelism } from "node:os";
import type { ReadPhoto } from "../files/index.ts";
import type { Plan } from "../plan/index.ts";
import { matchFaces, type PhotoReading } from "../testframe/index.ts";
import { createComputer, type Finder, WorkError, type WorkOptions } from "../workbench/index.ts";
import { LIBRARY_OPTION, libraryOption, planAt, type Surroundings, withProgress } from "./around.ts";
import { CallError, readCall } from "./call.ts";
import { type PhotoCall, readBracket } from "./photo-bracket.ts";
import { type ComparedPerson, comparedText } from "./photo-compared.ts";
import { photoText } from "./photo-text.ts";

/** Each process takes half a second to start and some hundred megabytes: worth it from a few photographs on. */
const PHOTOS_EACH = 4;
const MOST_READERS = 4;

export async function photo(words: readonly string[], around: Surroundings): Promise<number> {
  const form = {
    json: { type: "boolean" },
    plan: { type: "string" },
    bracket: { type: "boolean" },
    ...LIBRARY_OPTION,
  } as const;
  const call = readCall(words, form, "photo");
  const paths = call.positionals;
  if (paths.length === 0) throw new CallError("photo: name a photograph (tapemark photo --help)");
  const isBracket = call.values.bracket === true;
  if (isBracket && call.values.plan !== undefined)
    throw new CallError("photo: --bracket reads a grey card, which no plan has; leave --plan away");
  const plan = typeof call.values.plan === "string" ? await planAt(call.values.plan, around) : undefined;
  if (plan === null) return 1;
  const count = Math.min(MOST_READERS, availableParallelism(), Math.ceil(paths.length / PHOTOS_EACH));
  const { gear, startReader } = await around.photographs(libraryOption(call));
  const reader = startReader(count);
  const interrupt = around.onInterrupt(() => void reader.stop());
  try {
    const given = { reader, gear, isJson: call.values.json === true, around };
    return isBracket ? await readBracket(paths, given) : await readAll(paths, given, plan);
  } finally {
    interrupt.off();
    await reader.stop();
  }
}

/** Told in the order in which they were named, each as soon as it can be. */
async function readAll(
  paths: readonly string[],
  { reader, gear, isJson, around }: PhotoCall,
  plan: Plan | undefined,
): Promise<number> {
  const { bodies } = await gear.load();
  const asked = paths.map((path) =>
    reader.read({ name: path, path }, { bodies, preview: false }).then(
      (photo): ReadPhoto | WorkError => photo,
      (error: unknown) => {
        if (error instanceof WorkError) return error;
        throw error;
      },
    ),
  );
  const computer = createComputer();
  let failed = 0;
  for (const [i, each] of asked.entries()) {
    const told = await each;
    if (told instanceof WorkError) {
      failed++;
      around.error(`tapemark: ${told.message}\n`);
      continue;
    }
    // as it was named: a long path is not shortened for programs
    const reading = { ...told.reading, image: { ...told.reading.image, name: paths[i] } };
    const compared =
      plan && (await withProgress(around, (work) => compareAll(computer, plan, reading, work)));
    const gap = i > failed ? "\n" : "";
    if (isJson) around.out(`${JSON.stringify({ ...reading, compared }, sixDigits)}\n`);
    else around.out(`${gap}${photoText(reading)}${compared ? comparedText(compared) : ""}`);
  }
  return failed > 0 ? 3 : 0;
}

/** Everybody of the plan who is in the picture. */
async function compareAll(
  computer: Finder,
  plan: Plan,
  photo: PhotoReading,
  work: WorkOptions,
): Promise<ComparedPerson[]> {
  const out: ComparedPerson[] = [];
  for (const { person, face } of matchFaces(plan, photo)) {
    const compared = await computer.compare(plan, { person, photo, face }, work);
    out.push({ person: plan.people[person].name, face, ...compared });
  }
  return out;
}

/** As many as anything here is good to; a histogram of 120 shares stays readable. */
function sixDigits(_: string, value: unknown): unknown {
  return typeof value === "number" && !Number.isInteger(value) ? Number(value.toPrecision(6)) : value;
}
