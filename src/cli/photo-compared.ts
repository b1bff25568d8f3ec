/** A frame beside its plan, in words: what differs, why that may be, how to make sure, what mends it. */
import type { FrameComparison } from "../testframe/index.ts";

/** One person of the plan and the face that is theirs. */
export interface ComparedPerson extends FrameComparison {
  readonly person: string;
  readonly face: number;
}

export function comparedText(compared: readonly ComparedPerson[]): string {
  const lines: string[] = [];
  for (const { person, summary, lines: each, causes } of compared) {
    lines.push("", `  ${person}, beside the plan: ${summary}`);
    for (const { what, planned, seen, difference, state } of each)
      if (state !== "as planned")
        lines.push(
          `    ${what}: planned ${planned}, seen ${seen}${difference === "" ? "" : `: ${difference}`}`,
        );
    for (const { why, check, cure } of causes)
      lines.push(`    likely: ${why}`, `      be sure: ${check}`, `      ${cure}`);
  }
  if (compared.length === 0) lines.push("", "  nobody of the plan was found in it");
  return `${lines.join("\n")}\n`;
}
