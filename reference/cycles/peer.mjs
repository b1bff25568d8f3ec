// How long Cycles (Blender) takes to reach an error, on the room scene: node reference/cycles/peer.mjs [scale]
// Where Blender isn't installed it says so and ends well.
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

/** Blender's version, or null where it isn't installed. */
export function blenderVersion() {
  const asked = spawnSync("blender", ["--version"], { encoding: "utf8" });
  return asked.status === 0 ? asked.stdout.split("\n")[0].replace("Blender ", "").trim() : null;
}

/** Cycles on two threads at rising sample counts; null where Blender isn't installed.
 * rows: samples a pixel, seconds of the render call (median), rms: relative error over the points.
 * points: triangle, place (m) and normal of each; truth: their irradiance (lm/m2 for 1 lm), converged.
 * headPixels: how many pixels Cycles traces (those that show the head; all else is hidden from the camera).
 * `scale` makes the picture finer each way: 1 takes the points of values.json, 4 gives some 4,000. */
export function measureCycles(scale = 1) {
  if (blenderVersion() === null) return null;
  const folder = mkdtempSync(join(tmpdir(), "peer-"));
  try {
    const script = fileURLToPath(new URL("peer.py", import.meta.url));
    const target = join(folder, "peer.json");
    const flags = ["-b", "--factory-startup", "--python-exit-code", "1", "-P", script, "--", target];
    const done = spawnSync("blender", [...flags, String(scale)], {
      encoding: "utf8",
      maxBuffer: 1 << 26,
    });
    if (done.status !== 0)
      throw new Error(`Blender ended with ${done.status}:\n${done.stdout}\n${done.stderr}`);
    return JSON.parse(readFileSync(target, "utf8"));
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Seconds after which Cycles' RMS relative error is `targetRms`.
 * Between two measured counts along a straight line in logarithms. Beyond the largest, the samples are taken to go as
 * 1 / rms^2 and the time as the samples; above the error of the smallest, the time of the smallest (a least one).
 * `withSetUp` false leaves out what a render of one sample takes, nearly all of it Cycles getting the scene ready. */
export function cyclesTimeAtError(targetRms, rows, withSetUp = true) {
  const setUp = withSetUp ? 0 : rows[0].seconds;
  const measured = withSetUp ? rows : rows.slice(1);
  const time = (row) => Math.max(row.seconds - setUp, 1e-4);
  const last = measured[measured.length - 1];
  if (targetRms >= measured[0].rms) return time(measured[0]);
  if (targetRms < last.rms) return time(last) * (last.rms / targetRms) ** 2;
  const i = measured.findIndex((row) => row.rms <= targetRms);
  const [a, b] = [measured[i - 1], measured[i]];
  const share = Math.log(a.rms / targetRms) / Math.log(a.rms / b.rms);
  return time(a) * (time(b) / time(a)) ** share;
}

/** The measured rows and the time at some errors, as text. */
export function peerTable({ rows, points, headPixels }) {
  const lines = [
    `${points.length} points, ${headPixels} pixels of the head traced`,
    "samples   seconds   RMS error",
    ...rows.map(
      ({ samples, seconds, rms }) =>
        `${String(samples).padStart(7)} ${seconds.toFixed(3).padStart(9)} ${(100 * rms).toFixed(2).padStart(9)} %`,
    ),
    "error     seconds   without set-up",
    ...[0.05, 0.03, 0.02, 0.01, 0.005].map((rms) => {
      const [all, bare] = [true, false].map((whole) =>
        cyclesTimeAtError(rms, rows, whole).toFixed(3).padStart(9),
      );
      return `${(100 * rms).toFixed(1).padStart(5)} % ${all} ${bare}`;
    }),
  ];
  return lines.join("\n");
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  const version = blenderVersion();
  if (version === null) console.log("Blender is not installed here: nothing to measure against.");
  else {
    console.log(`Cycles of Blender ${version}, two threads, the room scene`);
    console.log(peerTable(measureCycles(Number(process.argv[2] ?? 1))));
  }
}
