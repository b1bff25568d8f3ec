/** The light vector at the bridge of the nose of a variation, the person taken away. */
import {
  behindPlates,
  cutFace,
  directField,
  emptyGather,
  RAY_STRIDE,
  Tracer,
  traceGatherRay,
} from "../engine/index.ts";
import { writeSpherePoint } from "../math/index.ts";
import { type BridgeLight, noseBridgeOf, readBridge } from "./bridge.ts";
import type { Lighting } from "./lighting.ts";
import type { TryBase } from "./try-stage.ts";

const RAYS = 256;
/** Parts of a light's front: 64, as a coarse field has them. */
const RINGS = 4;
/** What is carried over may grow by so much at most. */
const MOST_GROWTH = 4;

/** Sum, and the vector in the world; of it what bounces, as a sum. */
interface Field {
  readonly field: readonly number[];
  readonly bounced: number;
}

export function triedBridge(
  base: TryBase,
  lighting: Lighting,
  person: number,
): Omit<BridgeLight, "vectorScalarRatio"> {
  const miss = base.memory.recall(`bridge miss ${person}`, "", () => missed(base, person));
  const { field, bounced } = fieldAt(lighting, person);
  const growth = miss.bounced > 0 ? Math.min(MOST_GROWTH, bounced / miss.bounced) : 0;
  const [x, y, z] = [1, 2, 3].map((k) => field[k] + growth * miss.field[k]);
  const arriving = Math.hypot(x, y, z);
  if (!(arriving > 1e-9 * field[0])) return { azimuth: null, elevation: null, arriving: 0 };
  const r = lighting.stage.people[person].headRotation;
  const along = (k: number) => (r[k] * x + r[3 + k] * y + r[6 + k] * z) / arriving;
  return {
    azimuth: (Math.atan2(along(1), along(0)) * 180) / Math.PI,
    elevation: (Math.asin(Math.max(-1, Math.min(1, along(2)))) * 180) / Math.PI,
    arriving,
  };
}

/** What the quick way misses in the base, which is carried over as the bounce changes. */
function missed({ lighting, quick }: TryBase, person: number): Field {
  const now = fieldAt(quick, person);
  const full = readBridge(lighting.stage.plan, lighting, person);
  if (full.azimuth === null || full.elevation === null) return { field: [0, 0, 0, 0], bounced: 0 };
  const [a, e] = [(full.azimuth * Math.PI) / 180, (full.elevation * Math.PI) / 180];
  const own = [Math.cos(e) * Math.cos(a), Math.cos(e) * Math.sin(a), Math.sin(e)];
  const r = lighting.stage.people[person].headRotation;
  const world = [0, 1, 2].map(
    (k) => full.arriving * (r[3 * k] * own[0] + r[3 * k + 1] * own[1] + r[3 * k + 2] * own[2]),
  );
  return { field: [0, ...world.map((x, k) => x - now.field[k + 1])], bounced: now.bounced };
}

function fieldAt(lighting: Lighting, person: number): Field {
  const { stage, exitance, memory, stillKey } = lighting;
  const [x, y, z] = noseBridgeOf(lighting, person);
  const alone = new Tracer({
    ...stage.scene,
    meshes: stage.scene.meshes.filter((_, i) => {
      const owner = stage.owners[i];
      return !("person" in owner && owner.person === person);
    }),
  });
  const gather = memory.recall(`bridge ${person}`, stillKey, () => {
    const g = emptyGather(1, RAYS);
    const d = new Float64Array(3);
    for (let k = 0; k < RAYS; k++) {
      writeSpherePoint(d, 0, k, RAYS);
      traceGatherRay(alone, g, k, x, y, z, d[0], d[1], d[2]);
    }
    return g;
  });
  const visible = behindPlates(gather, stage.scene.emitters);
  const field = [0, 0, 0, 0];
  let bouncedSum = 0;
  // each direction stands for 4 pi / RAYS, and a surface of exitance M has luminance M / pi
  const each = 4 / RAYS;
  stage.lights.forEach(({ on, lumenSeconds, meterWeights: w }, l) => {
    if (!on) return;
    const at = { sum: 0, x: 0, y: 0, z: 0 };
    directField(alone, l, cutFace(stage.scene.emitters[l], RINGS), x, y, z, true, at);
    const white = lumenSeconds * (w[0] + w[1] + w[2]);
    field[0] += white * at.sum;
    field[1] += white * at.x;
    field[2] += white * at.y;
    field[3] += white * at.z;
    const { bounced, through } = exitance[l];
    for (let k = 0; k < RAYS; k++) {
      const tile = visible[k];
      if (tile < 0) continue;
      let value = (w[0] + w[1] + w[2]) * through[tile];
      for (let c = 0; c < 3; c++) value += w[c] * bounced[3 * tile + c];
      value *= each * lumenSeconds;
      bouncedSum += value;
      const at = RAY_STRIDE * k + 3;
      for (let c = 0; c < 3; c++) field[c + 1] += value * gather.rays[at + c];
    }
  });
  field[0] += bouncedSum;
  return { field, bounced: bouncedSum };
}
