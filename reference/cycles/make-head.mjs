// Made head.obj once, from the head the product had then. Not to be run again: the check needs a head that stays.
//   node reference/cycles/make-head.mjs
// Writes the product's head as a closed mesh; make_head.py (Blender) melts its parts into one skin and thins it.
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { withModules } from "../../scripts/modules.mjs";

const here = (name) => fileURLToPath(new URL(name, import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "head-"));
try {
  await withModules(async (load) => {
    const { buildHead } = await load("/src/figure/index.ts");
    const { positions, triangles } = buildHead().mesh;
    const mesh = closed([...positions], [...triangles]);
    writeFileSync(join(folder, "head.json"), JSON.stringify(mesh));
  });
  const script = ["-b", "--factory-startup", "--python-exit-code", "1", "-P", here("make_head.py"), "--"];
  const done = spawnSync("blender", [...script, join(folder, "head.json"), here("head.obj")], {
    stdio: "inherit",
  });
  if (done.status !== 0) process.exitCode = 1;
} finally {
  rmSync(folder, { recursive: true });
}

/** Fans over the open rims (the lids), so that inside and outside are told apart; the rims lie inside the eyeballs. */
function closed(positions, triangles) {
  const edges = new Set();
  const sides = (visit) => {
    for (let t = 0; t < triangles.length; t += 3)
      for (let k = 0; k < 3; k++) visit(triangles[t + k], triangles[t + ((k + 1) % 3)]);
  };
  sides((a, b) => edges.add(`${a} ${b}`));
  const next = new Map();
  sides((a, b) => {
    if (!edges.has(`${b} ${a}`)) next.set(b, a);
  });
  for (const start of [...next.keys()]) {
    const loop = [];
    for (let v = start; next.has(v); ) {
      loop.push(v);
      const after = next.get(v);
      next.delete(v);
      v = after;
    }
    if (loop.length === 0) continue;
    const middle = positions.length / 3;
    for (let k = 0; k < 3; k++)
      positions.push(loop.reduce((sum, v) => sum + positions[3 * v + k], 0) / loop.length);
    loop.forEach((v, i) => {
      triangles.push(v, loop[(i + 1) % loop.length], middle);
    });
  }
  return { positions, triangles };
}
