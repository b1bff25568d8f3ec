// npm run bench: each row beside the one it is measured against, alternating in one run; medians and their ratio.
import { readFileSync } from "node:fs";
import { cpus } from "node:os";
import { createServer } from "vite";

const server = await createServer({
  configFile: false,
  server: { middlewareMode: true, hmr: false },
  appType: "custom",
  logLevel: "error",
});
const { rows } = await server.ssrLoadModule("/bench/work.ts");
const median = (list) => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)];
const clock = () => performance.now();
console.log(`${cpus().length} cores, ${cpus()[0]?.model ?? "unknown"}, Node ${process.versions.node}\n`);
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
await server.close();
