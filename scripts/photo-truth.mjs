// Frames of known light: writes them as PNG files with what is true of each, reads them, prints the scores.
// node scripts/photo-truth.mjs [--count N] [--from I] [--shape own|other] [--kind tight|portrait|flash]
//   [--curve sRGB|linear] [--marks model|true] [--out FOLDER] [--frames-only]
// --marks true: with the true landmarks in place of the model's, to tell its errors from those of the light.
import { mkdirSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { withModules } from "./modules.mjs";

const started = process.cwd();
const root = join(dirname(fileURLToPath(import.meta.url)), "..");
process.chdir(root);

const words = process.argv.slice(2);
const asked = Object.fromEntries(
  words.flatMap((word, i) => (word.startsWith("--") ? [[word.slice(2), words[i + 1]]] : [])),
);
const count = Number(asked.count ?? 30);
const first = Number(asked.from ?? 0);
const shape = asked.shape ?? "other";
const options = {
  shape,
  ...(asked.kind && { kind: asked.kind }),
  ...(asked.curve && { curve: asked.curve }),
};
const folder = resolve(started, asked.out ?? join(tmpdir(), "tapemark-photo-truth"));
mkdirSync(folder, { recursive: true });

await withModules(async (load) => {
  const { truthFrame } = await load("/reference/photo-truth.ts");
  const { pngOf, readTruth } = await load("/reference/photo-truth-reader.ts");
  const { reportOf, tableOf } = await load("/reference/photo-truth-report.ts");
  const finder = words.includes("--frames-only") || asked.marks === "true" ? null : await modelFinder(load);
  const list = [];
  const outcomes = [];
  for (let index = first; index < first + count; index++) {
    const frame = truthFrame(index, options);
    const { truth, kind, person } = frame;
    const name = `${kind}-${shape}-${String(index).padStart(3, "0")}.png`;
    writeFileSync(join(folder, name), pngOf(frame));
    list.push({ name, person, kind, ...truth, cameraFromHead: Array.from(truth.cameraFromHead) });
    if (!words.includes("--frames-only")) outcomes.push(await readTruth(frame, finder));
  }
  writeFileSync(join(folder, `truth-${shape}.json`), JSON.stringify(list, null, 1));
  if (outcomes.length === 0) return;
  console.log(
    reportOf(`${shape} heads, ${asked.marks === "true" ? "true" : "the model's"} landmarks`, outcomes),
  );
  writeFileSync(join(folder, `read-${shape}.csv`), tableOf(outcomes));
});
console.log(`${folder}: ${count} frames`);

async function modelFinder(load) {
  const { openFaceNets } = await load("/src/files/face-models.ts");
  const { makeFaceFinder } = await load("/src/testframe/index.ts");
  return makeFaceFinder(await openFaceNets(root));
}
