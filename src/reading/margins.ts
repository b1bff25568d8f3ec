/** By how much the head may turn, or the chin lift, before the face shows another pattern: by trying. */
import { cutFace, directFlat, type Scene, Tracer } from "../engine/index.ts";
import { headRotation } from "../figure/index.ts";
import { multiply } from "../staging/index.ts";
import { type FaceShares, faceExposure, worldSamples } from "./face-light.ts";
import { type FaceSamples, faceSamples } from "./face-samples.ts";
import { type Lighting, WORK } from "./lighting.ts";
import { readPattern } from "./pattern.ts";
import type { FaceReading, Pattern } from "./types.ts";

/** Degrees tried first, and how finely the border is then found. */
const STEP = 4;
const FINEST = 0.5;
const MOST_TURN = 60;
const MOST_TIP = 40;
/** Parts of a light's face while trying: the border moves by under a degree from 16 to 64 (measured). */
const TRIAL_RINGS = 2;

export function nearestPattern(
  lighting: Lighting,
  person: number,
  shares: FaceShares,
  arriving: number,
  now: Pattern,
): FaceReading["nearest"] {
  if (now === "dark") return null;
  const trial = new Trial(lighting, person, shares, arriving);
  const turn = smallest((d) => trial.patternAt(d, 0), now, MOST_TURN);
  const raise = smallest((d) => trial.patternAt(0, d), now, MOST_TIP);
  if (!turn && !raise) return null;
  const turnFirst = turn !== null && (raise === null || Math.abs(turn.degrees) <= Math.abs(raise.degrees));
  const pattern = (turnFirst ? turn : raise)?.pattern as Pattern;
  return {
    pattern,
    turnDegrees: turn?.pattern === pattern ? turn.degrees : null,
    raiseDegrees: raise?.pattern === pattern ? raise.degrees : null,
  };
}

/** Steps outward on both sides; halves the step that first shows another pattern. */
function smallest(
  patternAt: (degrees: number) => Pattern,
  now: Pattern,
  most: number,
): { degrees: number; pattern: Pattern } | null {
  let best: { degrees: number; pattern: Pattern } | null = null;
  for (let step = STEP; step <= most && !best; step += STEP) {
    for (const sign of [1, -1]) {
      const found = patternAt(sign * step);
      if (found === now) continue;
      let inner = step - STEP;
      let outer = step;
      let pattern = found;
      while (outer - inner > FINEST) {
        const middle = (inner + outer) / 2;
        const there = patternAt(sign * middle);
        if (there === now) inner = middle;
        else {
          outer = middle;
          pattern = there;
        }
      }
      if (!best || outer < Math.abs(best.degrees)) best = { degrees: sign * outer, pattern };
    }
  }
  return best;
}

/** Traces the direct light alone anew for each pose; the bounce, which hardly changes, is kept from the pose as it is. */
class Trial {
  private readonly samples: FaceSamples;
  private readonly marks;
  private readonly bounced: FaceShares["bounced"];
  private readonly parts;
  private readonly headMesh: number;

  constructor(
    private readonly lighting: Lighting,
    private readonly person: number,
    shares: FaceShares,
    private readonly arriving: number,
  ) {
    const { stage } = lighting;
    const head = stage.people[person].shape.head;
    this.samples = faceSamples(head, WORK.coarse.spacing);
    this.marks = head.landmarks;
    this.parts = stage.scene.emitters.map((e) => cutFace(e, TRIAL_RINGS));
    this.headMesh = stage.owners.findIndex((o) => o.kind === "head" && o.person === person);
    this.bounced = carried(shares, this.samples);
  }

  patternAt(turn_deg: number, tip_deg: number): Pattern {
    const { stage } = this.lighting;
    const staged = stage.people[this.person];
    const pose = stage.plan.people[this.person].head;
    const rotation = multiply(
      staged.baseRotation,
      headRotation(pose.turn + turn_deg, pose.tip + tip_deg, pose.tilt),
    );
    const tracer = new Tracer(turned(stage.scene, this.headMesh, rotation));
    const world = worldSamples({ ...staged, headRotation: rotation }, this.samples);
    const direct = stage.lights.map((light, l) => {
      const out = new Float64Array(this.samples.count);
      if (!light.on) return out;
      for (let s = 0; s < out.length; s++) {
        const k = 6 * s;
        out[s] = directFlat(
          tracer,
          l,
          this.parts[l],
          0,
          1,
          world[k],
          world[k + 1],
          world[k + 2],
          world[k + 3],
          world[k + 4],
          world[k + 5],
        );
      }
      return out;
    });
    const exposure = faceExposure(this.lighting, { samples: this.samples, direct, bounced: this.bounced });
    return readPattern(this.samples, exposure, this.marks, this.arriving).pattern;
  }
}

/** The same scene with one mesh turned about its own origin. */
function turned(scene: Scene, index: number, rotation: Float64Array): Scene {
  const meshes = scene.meshes.map((mesh, i) => {
    if (i !== index) return mesh;
    // the bounding sphere is taken about the origin of the mesh, where no turn can leave it
    const [x, y, z] = mesh.offset;
    const reach = Math.hypot(mesh.sphere[0] - x, mesh.sphere[1] - y, mesh.sphere[2] - z) + mesh.sphere[3];
    return { ...mesh, rotation, sphere: Float64Array.of(x, y, z, reach) };
  });
  return { ...scene, meshes };
}

/** Bounced shares of the full reading, carried to the thinner samples by their nearest neighbour. */
function carried(shares: FaceShares, to: FaceSamples): FaceShares["bounced"] {
  const nearest = Int32Array.from({ length: to.count }, (_, s) =>
    nearestSample(shares.samples.position, to.position, s),
  );
  return shares.bounced.map((b) => {
    const out = new Float64Array(3 * to.count);
    for (let s = 0; s < to.count; s++) for (let c = 0; c < 3; c++) out[3 * s + c] = b[3 * nearest[s] + c];
    return out;
  });
}

function nearestSample(from: Float64Array, to: Float64Array, s: number): number {
  let best = 0;
  let bestSquare = Number.POSITIVE_INFINITY;
  for (let i = 0; i < from.length / 3; i++) {
    const square =
      (from[3 * i] - to[3 * s]) ** 2 +
      (from[3 * i + 1] - to[3 * s + 1]) ** 2 +
      (from[3 * i + 2] - to[3 * s + 2]) ** 2;
    if (square < bestSquare) {
      bestSquare = square;
      best = i;
    }
  }
  return best;
}
