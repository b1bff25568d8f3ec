/** The speeds that scene S is held to, each beside the same work from nothing. */
import { cast } from "../src/engine/index.ts";
import type { Plan } from "../src/plan/index.ts";
import { directOnSkin, gatherSkin, sharesOnSkin, worldSamples } from "../src/reading/face-light.ts";
import { faceSamples } from "../src/reading/face-samples.ts";
import { directAt, fieldsAt, type Spot } from "../src/reading/field.ts";
import { computeMap, Memory, renderFrame } from "../src/reading/index.ts";
import { type Lighting, lightUp } from "../src/reading/lighting.ts";
import { spotsOfMeters } from "../src/reading/meters.ts";
import { studio } from "./studio.ts";
import type { Row } from "./work.ts";

/** Face samples of a reading at full size. */
const SAMPLES = 4096;
const METER_RAYS = 3072;

export function studioRows(): Row[] {
  const plan = studio();
  const warm = new Memory();
  let step = 0;
  /** one light moved by a millimetre: the second, so that nothing else is what it was by chance */
  const moved = (): Plan => {
    const next = structuredClone(plan);
    next.lights[0].position[0] += 0.001 * ++step;
    return next;
  };
  const timed = (clock: () => number, work: () => unknown): number => {
    const start = clock();
    work();
    return clock() - start;
  };
  const spots = (lighting: Lighting): Spot[] => spotsOfMeters(lighting.stage.plan);
  const skin = (lighting: Lighting) => manySamples(lighting);
  const direct = (p: Plan, memory: Memory) => {
    const lighting = lightUp(p, "fine", memory);
    return () => {
      const world = skin(lighting);
      lighting.stage.lights.forEach((_, l) => {
        directOnSkin(lighting, "bench", l, world);
        directAt(lighting, "bench meters", "", spots(lighting), l, "meter");
      });
    };
  };
  const whole = (p: Plan, memory: Memory) => {
    const lighting = lightUp(p, "fine", memory);
    sharesOnSkin(lighting, "bench", skin(lighting));
    fieldsAt(lighting, "bench meters", spots(lighting), METER_RAYS, "meter");
  };
  const frame = (p: Plan, width: number, quality: "coarse" | "fine", memory: Memory) =>
    renderFrame(p, { width, quality }, memory);
  whole(plan, warm);
  frame(plan, 480, "fine", warm);
  frame(plan, 120, "coarse", warm);
  return [
    {
      name: `R1 direct: ${SAMPLES} face samples and 12 meters, one light moved`,
      against: "all three lights from nothing",
      asked: 60,
      runs: 7,
      once: (c) => {
        const again = direct(moved(), warm);
        const first = direct(plan, new Memory());
        return { ours: timed(c, again), other: timed(c, first) };
      },
    },
    {
      name: "R1 with interreflection refreshed",
      against: "from nothing",
      asked: 400,
      runs: 5,
      once: (c) => ({
        ours: timed(c, () => whole(moved(), warm)),
        other: timed(c, () => whole(plan, new Memory())),
      }),
    },
    {
      name: "R2 frame 480 x 600 fine, one light moved",
      against: "from nothing",
      asked: 2500,
      runs: 3,
      once: (c) => ({
        ours: timed(c, () => frame(moved(), 480, "fine", warm)),
        other: timed(c, () => frame(plan, 480, "fine", new Memory())),
      }),
    },
    {
      name: "R2 first picture, a quarter of the size, coarse",
      against: "from nothing",
      asked: 120,
      runs: 5,
      once: (c) => ({
        ours: timed(c, () => frame(moved(), 120, "coarse", warm)),
        other: timed(c, () => frame(plan, 120, "coarse", new Memory())),
      }),
    },
    {
      name: "R3 map 60 x 60, one light moved",
      against: "from nothing",
      asked: 150,
      runs: 5,
      once: (c) => {
        const reference = { kind: "person", index: 0 } as const;
        const request = { plane: "floor", at: 1.55, person: 0, reference, quality: "fine" } as const;
        return {
          ours: timed(c, () => computeMap(moved(), request, warm)),
          other: timed(c, () => computeMap(plan, request, new Memory())),
        };
      },
    },
    {
      name: "a million shadow rays, from face samples to the key",
      against: "a million rays that look round from them",
      runs: 5,
      once: (c) => {
        const lighting = lightUp(moved(), "fine", warm);
        const world = skin(lighting);
        const perMillion = (work: () => unknown) => {
          const before = cast.rays;
          const ms = timed(c, work);
          return (1e6 * ms) / (cast.rays - before);
        };
        return {
          ours: perMillion(() => directOnSkin(lighting, "bench rays", 0, world)),
          other: perMillion(() => gatherSkin(lighting, world)),
        };
      },
    },
  ];
}

/** So many points on the front of the first face, spread over its triangles, lifted as face samples are. */
function manySamples(lighting: Lighting): Float64Array {
  const person = lighting.stage.people[0];
  const { mesh, front } = person.shape.head;
  const faces: number[] = [];
  for (let t = 0; t < mesh.triangles.length; t += 3) {
    const corners = mesh.triangles.subarray(t, t + 3);
    if (corners.every((v) => front[v])) faces.push(t);
  }
  if (faces.length < SAMPLES) throw new Error(`only ${faces.length} triangles on the front`);
  const position = new Float64Array(3 * SAMPLES);
  const normal = new Float64Array(3 * SAMPLES);
  for (let i = 0; i < SAMPLES; i++) {
    const t = faces[Math.floor((i * faces.length) / SAMPLES)];
    for (let c = 0; c < 3; c++)
      for (let k = 0; k < 3; k++) {
        position[3 * i + c] += mesh.positions[3 * mesh.triangles[t + k] + c] / 3;
        normal[3 * i + c] += mesh.normals[3 * mesh.triangles[t + k] + c] / 3;
      }
  }
  return worldSamples(person, { ...faceSamples(person.shape.head, 0.01), count: SAMPLES, position, normal });
}
