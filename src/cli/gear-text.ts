/** What `tapemark gear` says in words. */
import { KINDS, type PackingLine, type Piece, type Shelf, totalWords } from "../gear/index.ts";
import type { Plan } from "../plan/index.ts";
import { type SafetyRow, sumWords } from "../safety/index.ts";
import { formatWeight, type LengthUnits } from "../units/index.ts";
import type { GearAnswers } from "./gear.ts";

export function gearText(
  plan: Plan,
  told: GearAnswers & { readonly shelf: string },
  units: LengthUnits,
): string {
  const { canItDo, packing, safety, note, shelf } = told;
  const lines = [plan.title, "", "Can it do that?"];
  if (canItDo.length === 0) lines.push("  no light of the plan is on");
  for (const { name, rows } of canItDo) {
    lines.push(`  ${name}`);
    for (const { about, sentence, ways, word } of rows) {
      lines.push(`    ${about}: ${word}: ${sentence}`);
      for (const { effect, what } of ways) lines.push(`      - ${what}: ${effect}`);
    }
  }
  lines.push("", `Packing list, ${totalWords(packing, units)} (${shelf})`);
  lines.push(...packing.lines.map((line) => `  ${packedText(line, units)}`));
  if (packing.missing.length > 0)
    lines.push("", "To be found before leaving", ...packing.missing.map((each) => `  ${each}`));
  lines.push("", "Weights, air and mains", ...safety.flatMap(safetyLines), "", note);
  return `${lines.join("\n")}\n`;
}

function packedText({ count, isTypical, mass, name, owners }: PackingLine, units: LengthUnits): string {
  const weight =
    mass === null ? "not weighed" : `${formatWeight(count * mass, units)}${isTypical ? ", typical" : ""}`;
  const whose = [...new Set(owners)];
  return `${count} × ${name}: ${weight}${whose.length === 0 ? "" : `; for ${whose.join(", ")}`}`;
}

function safetyLines({ about, asks, heading, sums }: SafetyRow): string[] {
  return [
    `  ${heading}: ${about}`,
    ...sums.map((sum) => `    ${sumWords(sum)}`),
    ...asks.map((ask) => `    still open: ${ask}`),
  ];
}

export function shelfLines(shelf: Shelf, from: string, units: LengthUnits): string {
  const lines = [from.charAt(0).toUpperCase() + from.slice(1)];
  for (const kind of KINDS) {
    const pieces: readonly Piece[] = shelf[kind];
    lines.push("", `${kind.charAt(0).toUpperCase()}${kind.slice(1)}${pieces.length === 0 ? ": none" : ""}`);
    for (const { count, isTypical, mass, name } of pieces)
      lines.push(
        `  ${count} × ${name}: ${mass === null ? "not weighed" : `${formatWeight(mass, units)} each`}${isTypical ? ", typical" : ""}`,
      );
  }
  return `${lines.join("\n")}\n`;
}
