// npm run bench: each row beside the one it is measured against, alternating in one run; medians and their ratio.
import { readFileSync } from "node:fs";
import { cpus } from "node:os";
import { withModules } from "./modules.mjs";

const median = (list) => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)];
const clock = () => performance.now();
console.log(`${cpus().length} cores, ${cpus()[0]?.model ?? "unknown"}, Node ${process.versions.node}\n`);
await withModules(async (load) => {
  const { rows } = await load("/bench/work.ts");
  for (const row of rows(JSON.parse(readFileSync("examples/cellist.json", "utf8")))) {
    row.once(clock);
    const ours = [];
    const other = [];
    for (let i = 0; i < row.runs; i++) {
      const once = row.once(clock);
      ours.push(once.ours);
      other.push(once.other);
    }
    const [a, b] = [median(ours), median(other)];
    console.log(
      `${row.name}: ${a.toFixed(1)} ms; ${row.against}: ${b.toFixed(1)} ms; ratio ${(b / a).toFixed(1)}`,
    );
  }
});
