/** Which fields the schema knows at a place, to say what a mistyped one was meant to be. */
import type { z } from "zod";

/** What of a schema's definition is looked at here. */
interface Definition {
  readonly type: string;
  readonly innerType?: z.core.$ZodType;
  readonly options?: readonly z.core.$ZodType[];
  readonly shape?: Readonly<Record<string, z.core.$ZodType>>;
  readonly element?: z.core.$ZodType;
}

const definitionOf = (schema: z.core.$ZodType) => schema._zod.def as Definition;

/** A schema without its defaults; every form where there are several. */
function formsOf(schema: z.core.$ZodType): z.core.$ZodType[] {
  const { innerType, options } = definitionOf(schema);
  if (innerType) return formsOf(innerType);
  return options ? options.flatMap(formsOf) : [schema];
}

export function knownFields(schema: z.core.$ZodType, path: readonly PropertyKey[]): string[] {
  let forms = formsOf(schema);
  for (const step of path) {
    forms = forms.flatMap((form) => {
      const { shape, element } = definitionOf(form);
      if (typeof step === "number") return element ? formsOf(element) : [];
      return shape && Object.hasOwn(shape, step) ? formsOf(shape[step as string]) : [];
    });
  }
  return [...new Set(forms.flatMap((form) => Object.keys(definitionOf(form).shape ?? {})))];
}

/** The known word that a mistyped one is nearest to; null where none is near. */
export function nearestWord(word: string, known: readonly string[]): string | null {
  if (word.length > LONGEST_WORD) return null;
  let best: string | null = null;
  let least = Math.max(1, Math.floor(word.length * 0.4)) + 1;
  for (const candidate of known) {
    const distance = editDistance(word.toLowerCase(), candidate.toLowerCase());
    if (distance < least) {
      best = candidate;
      least = distance;
    }
  }
  return best;
}

/** No field's name is nearly as long. */
const LONGEST_WORD = 40;

/** Fewest letters put in, taken out or changed (Levenshtein). */
function editDistance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = row[j - 1] + (a[i - 1] === b[j - 1] ? 0 : 1);
      next.push(Math.min(row[j] + 1, next[j - 1] + 1, change));
    }
    row = next;
  }
  return row[b.length];
}
