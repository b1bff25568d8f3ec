// Writes docs/accuracy.md: every published check, ours beside it, worst first. npm run accuracy
import { readdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { withModules } from "./modules.mjs";

process.chdir(join(dirname(fileURLToPath(import.meta.url)), ".."));
const rows = [];
await withModules(async (load) => {
  const { difference, isAbsolute } = await load("/reference/checks.ts");
  const files = readdirSync("reference").filter((f) => f.endsWith(".checks.ts"));
  for (const file of files.sort()) {
    const { checks } = await load(`/reference/${file}`);
    for (const check of checks) {
      const ours = await check.ours();
      const off = difference(check, ours);
      // a tolerance of 0 is kept whole or is broken
      const used = off === 0 ? 0 : off / check.tolerance;
      rows.push({ check, ours, off, used, absolute: isAbsolute(check) });
    }
  }
});

// NaN is the worst of all
const badness = ({ used }) => (Number.isNaN(used) ? Number.POSITIVE_INFINITY : used);
rows.sort((a, b) => badness(b) - badness(a) || 0);
const failed = rows.filter((r) => !(r.used <= 1)).length;
const number = (x) => Number(x.toPrecision(6)).toString();
const amount = (x, absolute) =>
  absolute ? Number(x.toPrecision(2)).toString() : `${Number((100 * x).toPrecision(2))} %`;
const isPractice = ({ check }) => check.source.startsWith("common practice");
const table = (list) =>
  [
    "| what | source | published | ours | difference | allowed |",
    "|---|---|---|---|---|---|",
    ...list.map(
      ({ check, ours, off, absolute }) =>
        `| ${check.what} | ${check.source} | ${number(check.published)} | ${number(ours)} | ${amount(off, absolute)} | ${amount(check.tolerance, absolute)} (${check.why}) |`,
    ),
  ].join("\n");
writeFileSync(
  "docs/accuracy.md",
  `# Accuracy

Every published value that the tests hold us to, with ours beside it; written by \`npm run accuracy\`, worst first
(by the share of its tolerance that is used up). ${rows.length} checks, ${failed} outside their tolerance.

${table(rows.filter((row) => !isPractice(row)))}

## Facts of the trade

Common practice, no published source: ranges, of which the middle stands as the value. A share of all or nothing stands at
the end of its range.

${table(rows.filter(isPractice))}
`,
);
console.log(`docs/accuracy.md: ${rows.length} checks, ${failed} outside their tolerance`);
process.exitCode = failed > 0 ? 1 : 0;
