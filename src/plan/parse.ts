/** From text to a plan, or to everything that is wrong with it. */
import { fillIn, isLoose, type Loose } from "./fill-in.ts";
import { findingsOf } from "./findings.ts";
import { findFault } from "./json-fault.ts";
import { MIGRATIONS, type Migration, migrate } from "./migrations.ts";
import { missingPhotometry } from "./photometry.ts";
import { type Problem, shown, toProblems } from "./problems.ts";
import { FORMAT, type Plan, plan as planSchema, VERSION } from "./schema.ts";
import { senseFindings } from "./sense.ts";

export type Parsed =
  | { readonly ok: true; readonly plan: Plan }
  | { readonly ok: false; readonly problems: Problem[] };

const MEBI = 1024 * 1024;
/** A plan is a few kilobytes; this is far beyond any and is read in a moment. */
const MOST_CHARACTERS = 8 * MEBI;
/** The document is eight deep; deeper ones would only exhaust the parser. */
const DEEPEST = 64;

/** The plan in a file's text, with every default filled in, or all its problems in the order of the text.
 * Shape   text of one JSON document, with or without a byte-order mark; `beside` gives files that it names
 * Errors  none thrown, whatever the text; problems are for people */
export function parsePlan(text: string, beside: Beside = () => null): Parsed {
  if (text.length > MOST_CHARACTERS)
    return wrong(
      `is ${(text.length / MEBI).toFixed(1)} MiB of text; a plan has at most ${MOST_CHARACTERS / MEBI} MiB: is this the right file?`,
    );
  const body = text.charCodeAt(0) === 0xfeff ? text.slice(1) : text;
  if (body.trim() === "") return wrong("is empty; start from an example or from a new plan");
  if (isDeeperThan(DEEPEST, body))
    return wrong(
      `has brackets more than ${DEEPEST} deep; a plan has no more than eight: is this the right file?`,
    );
  let value: unknown;
  try {
    value = JSON.parse(body);
  } catch {
    return wrong(notJsonWords(body));
  }
  return checkPlan(withPhotometry(value, beside));
}

/** "is not JSON: line 2, column 15: a field's name is missing before this comma" */
export function notJsonWords(text: string): string {
  const fault = isDeeperThan(DEEPEST, text) ? null : findFault(text);
  return fault ? `is not JSON: line ${fault.line}, column ${fault.column}: ${fault.cause}` : "is not JSON";
}

/** The text of a file that lies beside the plan, null where there is none. */
export type Beside = (name: string) => string | null;

/** The document with the photometric files that lie beside it taken in. */
function withPhotometry(document: unknown, beside: Beside): unknown {
  if (!isLoose(document)) return document;
  const found = missingPhotometry(document).flatMap((name) => {
    const text = beside(name);
    return text === null ? [] : [[name, text] as const];
  });
  if (found.length === 0) return document;
  const held = isLoose(document.photometry) ? document.photometry : {};
  return { ...document, photometry: { ...held, ...Object.fromEntries(found) } };
}

/** Checks a value that is already there. Migrations may be given for tests.
 * Errors  none thrown, whatever the value */
export function checkPlan(value: unknown, migrations: readonly Migration[] = MIGRATIONS): Parsed {
  if (!isLoose(value))
    return wrong(
      `must be a group in braces that begins { "format": "${FORMAT}", "version": ${VERSION} }; ${shown(value)}`,
    );
  const document = atThisVersion(value, migrations);
  if (!document.ok) return document;
  const filled = fillIn(document.value);
  const result = planSchema.safeParse(filled);
  if (result.success) {
    const findings = senseFindings(result.data);
    return findings.length === 0
      ? { ok: true, plan: result.data }
      : { ok: false, problems: toProblems(findings, 0, document.value) };
  }
  const { findings, more } = findingsOf(result.error, document.value);
  return { ok: false, problems: toProblems([...findings, ...senseFindings(filled)], more, document.value) };
}

type Current =
  | { readonly ok: true; readonly value: Loose }
  | { readonly ok: false; readonly problems: Problem[] };

function atThisVersion(value: Loose, migrations: readonly Migration[]): Current {
  const { format, version } = value;
  // the schema says what is wrong with a format or a version that is none
  if (format !== FORMAT || !Number.isInteger(version) || version === VERSION) return { ok: true, value };
  if ((version as number) > VERSION)
    return wrong(
      `was made by a newer Tapemark: it is plan version ${version}, and this one reads up to ${VERSION}; update Tapemark`,
      "version",
    );
  const current = migrate(value, VERSION, migrations);
  return current
    ? { ok: true, value: current }
    : wrong(
        `must be ${VERSION}; it is ${version}, and no plan of that version can be brought forward`,
        "version",
      );
}

function wrong(what: string, path = "plan"): { ok: false; problems: Problem[] } {
  return { ok: false, problems: [{ path, what }] };
}

/** Whether brackets outside strings are nested deeper; found without recursion, and given up at the first. */
function isDeeperThan(most: number, text: string): boolean {
  let depth = 0;
  let inString = false;
  for (let i = 0; i < text.length; i++) {
    const c = text[i];
    if (inString) {
      if (c === "\\") i++;
      else if (c === '"') inString = false;
    } else if (c === '"') inString = true;
    else if (c === "{" || c === "[") {
      if (++depth > most) return true;
    } else if (c === "}" || c === "]") depth--;
  }
  return false;
}
