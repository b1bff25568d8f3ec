// npm start: installs, builds, serves, opens the workbench with the demo plan. Words after -- go to the command; a plan
// among them, as the first, is opened instead of the demo.
import { spawn } from "node:child_process";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { demandBuild, demandNode, demandPackages } from "./ready.mjs";

process.chdir(join(dirname(fileURLToPath(import.meta.url)), ".."));
demandNode();
demandPackages();
demandBuild();
const words = process.argv.slice(2);
if (words.length === 0 || words[0].startsWith("--")) words.unshift("examples/cellist.json");
const child = spawn(process.execPath, ["bin/tapemark.js", "open", ...words], { stdio: "inherit" });
for (const signal of ["SIGINT", "SIGTERM"]) process.on(signal, () => child.kill(signal));
child.on("exit", (code) => {
  process.exitCode = code ?? 0;
});
