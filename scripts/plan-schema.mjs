/** Writes docs/plan.schema.json from the schema in src/plan: node scripts/plan-schema.mjs */
import { writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { runnerImport } from "vite";

const inRepository = (path) => fileURLToPath(new URL(`../${path}`, import.meta.url));

const { module } = await runnerImport(inRepository("src/plan/json-schema.ts"), {
  configFile: false,
  root: inRepository("."),
  logLevel: "error",
});
writeFileSync(inRepository("docs/plan.schema.json"), `${JSON.stringify(module.planJsonSchema(), null, 2)}\n`);
