// npm run bench: what is measured is bundled first, as users get it. Each row beside the one it is measured against, alternating in one run; medians and their ratio.
import { readFileSync } from "node:fs";
import { cpus } from "node:os";
import { bundle, bundled } from "./bundled.mjs";

const median = (list) => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)];
const clock = () => performance.now();
/** Fewer runs of each row than it asks for, where all that matters is that it runs. */
const MOST_RUNS = Number(process.env.BENCH_RUNS ?? Number.POSITIVE_INFINITY);
console.log(`${cpus().length} cores, ${cpus()[0]?.model ?? "unknown"}, Node ${process.versions.node}\n`);
const { allRows } = await bundled("bench/index.ts");
await bundle("bench/library-open.ts");
const demo = JSON.parse(readFileSync("examples/cellist.json", "utf8"));
for (const row of allRows(demo, MOST_RUNS === 1)) {
  // the first brings things to mind that later ones find there; where all that matters is that it runs, it is all there is
  if (MOST_RUNS > 1) await row.once(clock);
  const ours = [];
  const other = [];
  for (let i = 0; i < Math.min(row.runs, MOST_RUNS); i++) {
    const once = await row.once(clock);
    ours.push(once.ours);
    other.push(once.other);
  }
  const [a, b] = [median(ours), median(other)];
  const asked = row.asked ? `; asked ${row.asked} ms` : "";
  const askedOther = row.askedOther ? `, asked ${row.askedOther} ms` : "";
  console.log(
    `${row.name}: ${a.toFixed(1)} ms; ${row.against}: ${b.toFixed(1)} ms${askedOther}; ratio ${(b / a).toFixed(1)}${asked}`,
  );
}
