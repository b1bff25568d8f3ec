// npm run bench: what is measured is bundled first, as users get it. Each row beside the one it is measured against, alternating in one run; medians and their ratio.
import { readFileSync } from "node:fs";
import { cpus } from "node:os";
import { bundled } from "./bundled.mjs";

const median = (list) => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)];
const clock = () => performance.now();
console.log(`${cpus().length} cores, ${cpus()[0]?.model ?? "unknown"}, Node ${process.versions.node}\n`);
const { faceRows, rows, studioRows } = await bundled("bench/index.ts");
const demo = JSON.parse(readFileSync("examples/cellist.json", "utf8"));
for (const row of [...faceRows(), ...studioRows(), ...rows(demo)]) {
  row.once(clock);
  const ours = [];
  const other = [];
  for (let i = 0; i < row.runs; i++) {
    const once = row.once(clock);
    ours.push(once.ours);
    other.push(once.other);
  }
  const [a, b] = [median(ours), median(other)];
  const asked = row.asked ? `; asked ${row.asked} ms` : "";
  console.log(
    `${row.name}: ${a.toFixed(1)} ms; ${row.against}: ${b.toFixed(1)} ms; ratio ${(b / a).toFixed(1)}${asked}`,
  );
}
