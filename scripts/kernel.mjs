// npm run kernel: compiles the walk through the triangles to WebAssembly, kept as text beside its source so that
// neither a browser nor a test waits for a file. `--check` only says whether the kept one is current.
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const SOURCE = "src/engine/walk.as.ts";
const KEPT = "src/engine/walk.generated.ts";

export function compileKernel() {
  const folder = mkdtempSync(join(tmpdir(), "tapemark-kernel-"));
  try {
    const out = join(folder, "walk.wasm");
    const flags = ["-O3", "--noAssert", "--runtime", "stub", "--enable", "simd", "--initialMemory", "4"];
    const asc = "node_modules/assemblyscript/bin/asc.js";
    execFileSync(process.execPath, [asc, SOURCE, "-o", out, ...flags], {
      stdio: ["ignore", "ignore", "inherit"],
    });
    const hex = readFileSync(out).toString("hex");
    return `/** Generated from walk.as.ts by npm run kernel. */\nexport const WALK =\n  "${hex}";\n`;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

if (process.argv[1]?.endsWith("kernel.mjs")) {
  const text = compileKernel();
  const current = readFileSync(KEPT, { encoding: "utf8", flag: "a+" }) === text;
  if (!process.argv.includes("--check")) writeFileSync(KEPT, text);
  else if (!current) {
    console.error(`${KEPT} is not what ${SOURCE} compiles to; run npm run kernel`);
    process.exitCode = 1;
  }
}
