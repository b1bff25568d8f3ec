/** From text to a plan, or to everything that is wrong with it. */
import { MIGRATIONS, type Migration, migrate } from "./migrations.ts";
import { limited, type Problem, problemsOf } from "./problems.ts";
import { FORMAT, type Plan, plan as planSchema, VERSION } from "./schema.ts";
import { senseProblems } from "./sense.ts";

export type Parsed =
  | { readonly ok: true; readonly plan: Plan }
  | { readonly ok: false; readonly problems: Problem[] };

/** A plan is a few kilobytes; this is far beyond any and is read in a moment. */
export const MOST_CHARACTERS = 8 * 1024 * 1024;
/** The document is four deep; deeper ones would only exhaust the parser. */
const DEEPEST = 64;

export function parsePlan(text: string): Parsed {
  if (text.length > MOST_CHARACTERS) {
    return wrong(
      `has ${(text.length / 1048576).toFixed(1)} million characters (2^20); a plan has at most 8. Is this the right file?`,
    );
  }
  const body = text.charCodeAt(0) === 0xfeff ? text.slice(1) : text;
  if (body.trim() === "") return wrong("the file is empty; start from an example");
  const depth = depthOf(body);
  if (depth > DEEPEST)
    return wrong(`brackets are nested ${depth} deep or more; a plan nests at most ${DEEPEST}`);
  let value: unknown;
  try {
    value = JSON.parse(body);
  } catch (error) {
    return wrong(`is not JSON: ${place(body, error)}`);
  }
  return checkPlan(value);
}

/** Checks a value that is already there; migrations may be given for tests. */
export function checkPlan(value: unknown, migrations: readonly Migration[] = MIGRATIONS): Parsed {
  if (typeof value !== "object" || value === null || Array.isArray(value))
    return wrong(`must be a JSON object that begins { "format": "${FORMAT}", "version": ${VERSION} }`);
  const head = value as { format?: unknown; version?: unknown };
  if (head.format === FORMAT && typeof head.version === "number" && head.version > VERSION) {
    return {
      ok: false,
      problems: [
        {
          path: "version",
          what: `was made by a newer Tapemark (plan version ${head.version}; this one reads up to ${VERSION}); update Tapemark`,
        },
      ],
    };
  }
  const current = migrate(value as Record<string, unknown>, VERSION, migrations);
  const result = planSchema.safeParse(current);
  if (!result.success) return { ok: false, problems: limited(problemsOf(result.error, current)) };
  const problems = senseProblems(result.data);
  return problems.length > 0 ? { ok: false, problems: limited(problems) } : { ok: true, plan: result.data };
}

function wrong(what: string): Parsed {
  return { ok: false, problems: [{ path: "plan", what }] };
}

/** Deepest nesting of brackets outside strings, found without recursion; stops counting past the limit. */
function depthOf(text: string): number {
  let depth = 0;
  let most = 0;
  let inString = false;
  for (let i = 0; i < text.length && most <= DEEPEST; i++) {
    const c = text[i];
    if (inString) {
      if (c === "\\") i++;
      else if (c === '"') inString = false;
    } else if (c === '"') inString = true;
    else if (c === "{" || c === "[") most = Math.max(most, ++depth);
    else if (c === "}" || c === "]") depth--;
  }
  return most;
}

/** Line and column of a syntax error, where the runtime tells the position. */
function place(text: string, error: unknown): string {
  const message = error instanceof Error ? error.message : String(error);
  const position = /position (\d+)/.exec(message);
  const at = position ? Number(position[1]) : /Unexpected end/.test(message) ? text.length : -1;
  const reason = message
    .replace(/,? ?"[\s\S]*$/, "")
    .replace(/ in JSON.*$/, "")
    .replace(/ \(line.*$/, "");
  if (at < 0) return `${reason}; check commas, quotes and brackets`;
  const before = text.slice(0, at).split("\n");
  return `${reason} at line ${before.length}, column ${before[before.length - 1].length + 1}; check commas, quotes and brackets there`;
}
