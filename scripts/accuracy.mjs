// Writes docs/accuracy.md: every published check, ours beside it, worst first. npm run accuracy
import { readdirSync, writeFileSync } from "node:fs";
import { createServer } from "vite";

const server = await createServer({
  configFile: false,
  server: { middlewareMode: true },
  appType: "custom",
  logLevel: "error",
});
const { difference } = await server.ssrLoadModule("/reference/checks.ts");
const rows = [];
for (const file of readdirSync("reference")
  .filter((f) => f.endsWith(".checks.ts"))
  .sort()) {
  const { checks } = await server.ssrLoadModule(`/reference/${file}`);
  for (const check of checks) {
    const ours = check.ours();
    rows.push({ check, ours, off: difference(check, ours) });
  }
}
await server.close();
rows.sort((a, b) => b.off / b.check.tolerance - a.off / a.check.tolerance);
const number = (x) => Number(x.toPrecision(6)).toString();
const failed = rows.filter((r) => !(r.off <= r.check.tolerance)).length;
const lines = rows.map(
  ({ check, ours, off }) =>
    `| ${check.what} | ${check.source} | ${number(check.published)} | ${number(ours)} | ${(100 * off).toPrecision(2)} % | ${number(100 * check.tolerance)} % (${check.why}) |`,
);
writeFileSync(
  "docs/accuracy.md",
  `# Accuracy

Every published value that the tests hold us to, with ours beside it; written by \`npm run accuracy\`, worst first
(by the share of its tolerance that is used up). ${rows.length} checks, ${failed} outside their tolerance.

| what | source | published | ours | difference | allowed |
|---|---|---|---|---|---|
${lines.join("\n")}
`,
);
console.log(`docs/accuracy.md: ${rows.length} checks, ${failed} outside their tolerance`);
process.exitCode = failed > 0 ? 1 : 0;
