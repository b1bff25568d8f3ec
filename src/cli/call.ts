/** How a command was called: its words, or what is wrong with them. */
import { parseArgs } from "node:util";
import type { LengthUnits } from "../units/index.ts";

/** The call itself is wrong: exit code 2. */
export class CallError extends Error {
  constructor(message: string) {
    super(message);
    this.name = "CallError";
  }
}

export interface Call {
  readonly positionals: readonly string[];
  readonly values: Readonly<Record<string, string | boolean | undefined>>;
}

export interface OptionForm {
  readonly type: "string" | "boolean";
}

/** Splits words into options and the rest; an option that is not known is named with the nearest one. */
export function readCall(
  words: readonly string[],
  options: Readonly<Record<string, OptionForm>>,
  command: string,
): Call {
  for (const word of words) {
    if (word === "--") break;
    if (!word.startsWith("-") || word === "-") continue;
    const name = word.replace(/^-+/, "").split("=")[0];
    if (Object.hasOwn(options, name)) continue;
    const near = nearest(name, Object.keys(options));
    const known = Object.keys(options).map((option) => `--${option}`);
    const cure = near
      ? `did you mean --${near}?`
      : known.length > 0
        ? `it has ${known.join(", ")}`
        : "it has none";
    throw new CallError(
      `${word.split("=")[0]}: "${command}" has no such option; ${cure} (tapemark ${command} --help)`,
    );
  }
  try {
    const parsed = parseArgs({ args: [...words], options, allowPositionals: true, strict: true });
    return { positionals: parsed.positionals, values: parsed.values as Call["values"] };
  } catch (error) {
    const text = error instanceof Error ? error.message.split(".")[0] : String(error);
    throw new CallError(`${text} (tapemark ${command} --help)`);
  }
}

/** The one word in the list that is closest, if it is close at all; a longer or shorter form is as near as can be. */
export function nearest(word: string, list: readonly string[]): string | null {
  let best: string | null = null;
  let least = 3;
  for (const candidate of list) {
    const isForm = word.length > 1 && (word.startsWith(candidate) || candidate.includes(word));
    const d = isForm ? 1 : distance(word, candidate);
    if (d < least) {
      least = d;
      best = candidate;
    }
  }
  return best;
}

/** Number of letters to change, add or drop (Levenshtein). */
function distance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++)
      next[j] = Math.min(row[j] + 1, next[j - 1] + 1, row[j - 1] + (a[i - 1] === b[j - 1] ? 0 : 1));
    row = next;
  }
  return row[b.length];
}

export function onePlan(call: Call, command: string): string {
  if (call.positionals.length === 1) return call.positionals[0];
  if (call.positionals.length === 0)
    throw new CallError(`${command}: name a plan file (tapemark ${command} --help)`);
  throw new CallError(`${command}: takes one plan; "${call.positionals[1]}" is one too many`);
}

export function wholeNumber(text: unknown, name: string, low: number, high: number): number {
  const value = typeof text === "string" && /^\d+$/.test(text) ? Number(text) : Number.NaN;
  if (value >= low && value <= high) return value;
  throw new CallError(`--${name}: ${String(text)} is not a whole number from ${low} to ${high}`);
}

function oneOf<T extends string>(text: unknown, name: string, allowed: readonly T[], fallback: T): T {
  if (text === undefined) return fallback;
  const found = allowed.find((a) => a === text);
  if (found) return found;
  throw new CallError(`--${name}: ${String(text)} is not one of ${allowed.join(", ")}`);
}

export function paperOption(given: unknown): "a4" | "letter" {
  return oneOf(given, "paper", ["a4", "letter"], "a4");
}

export function unitsOption(given: unknown): LengthUnits {
  return oneOf(given, "units", ["metric", "feet"], "metric");
}
