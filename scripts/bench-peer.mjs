// npm run bench:peer: how long until the points of the room scene are right to the same error, beside a path tracer on
// the same machine (Cycles, two threads; ours uses one). Where Blender isn't installed it says so and ends well.
import { blenderVersion, cyclesTimeAtError, measureCycles, peerTable } from "../reference/cycles/peer.mjs";
import { bundled } from "./bundled.mjs";

const RUNS = 5;
/** As faces are read: the first coarse, the second fine, then more of everything. */
const EFFORTS = [
  { patchRays: 3, rings: 2, points: 32, look: 40 },
  { patchRays: 20, rings: 4, points: 64, look: 96 },
  { patchRays: 20, rings: 4, points: 128, look: 256 },
  { patchRays: 20, rings: 8, points: 256, look: 1024 },
].map((effort) => ({ ...effort, exactly: false }));

if (blenderVersion() === null) console.log("Blender is not installed here: nothing to measure against.");
else {
  for (const scale of [1, 2]) {
    const cycles = measureCycles(scale);
    console.log(peerTable(cycles));
    const points = cycles.points.map(({ place, normal }, i) => ({
      position: place,
      normal,
      irradiance: cycles.truth[i],
      direct: 0,
    }));
    const { rmsError } = await bundled("bench/peer.ts");
    for (const effort of EFFORTS) {
      const seconds = [];
      let rms = 0;
      for (let i = 0; i <= RUNS; i++) {
        const start = performance.now();
        rms = rmsError(points, effort);
        if (i > 0) seconds.push((performance.now() - start) / 1000);
      }
      const ours = seconds.sort((a, b) => a - b)[Math.floor(RUNS / 2)];
      const theirs = cyclesTimeAtError(rms, cycles.rows);
      console.log(
        `ours: error ${(100 * rms).toFixed(2)} % in ${ours.toFixed(3)} s; Cycles ${theirs.toFixed(3)} s; ratio ${(theirs / ours).toFixed(1)}`,
      );
    }
  }
}
