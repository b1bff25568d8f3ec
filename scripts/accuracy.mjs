// Writes docs/accuracy.md: every published check, ours beside it, worst first. npm run accuracy, and npm test as well
import { writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { bundled } from "./bundled.mjs";

process.chdir(join(dirname(fileURLToPath(import.meta.url)), ".."));
const { measureAll } = await bundled("reference/published.ts");
const rows = await measureAll();

// NaN is the worst of all
const badness = ({ used }) => (Number.isNaN(used) ? Number.POSITIVE_INFINITY : used);
rows.sort((a, b) => badness(b) - badness(a) || 0);
const outside = rows.filter((r) => !(r.used <= 1));
const number = (x) => Number(x.toPrecision(6)).toString();
const amount = (x, absolute) =>
  absolute ? Number(x.toPrecision(2)).toString() : `${Number((100 * x).toPrecision(2))} %`;
const isPractice = ({ check }) => check.source.startsWith("common practice");
const table = (list) =>
  [
    "| what | source | published | ours | difference | allowed |",
    "|---|---|---|---|---|---|",
    ...list.map(
      ({ check, ours, off, isAbsolute }) =>
        `| ${check.what} | ${check.source} | ${number(check.published)} | ${number(ours)} | ${amount(off, isAbsolute)} | ${amount(check.tolerance, isAbsolute)} (${check.why}) |`,
    ),
  ].join("\n");
writeFileSync(
  "docs/accuracy.md",
  `# Accuracy

Every published value that the tests hold us to, with ours beside it; written by \`npm run accuracy\`, worst first
(by the share of its tolerance that is used up). ${rows.length} checks, ${outside.length} outside their tolerance.

${table(rows.filter((row) => !isPractice(row)))}

## Facts of the trade

Common practice, no published source: ranges, of which the middle stands as the value. A share of all or nothing stands at
the end of its range.

${table(rows.filter(isPractice))}
`,
);
for (const { check, ours } of outside)
  console.error(`outside: ${check.id}: ${check.what}: published ${check.published}, ours ${ours}`);
console.log(`docs/accuracy.md: ${rows.length} checks, ${outside.length} outside their tolerance`);
process.exitCode = outside.length > 0 ? 1 : 0;
