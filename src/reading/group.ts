/** How evenly several people are lit, and who stands in whose light. */
import { cutFace, directFlat, reach, Tracer } from "../engine/index.ts";
import { worldSamples } from "./face-light.ts";
import { faceSamples } from "./face-samples.ts";
import { type Lighting, WORK } from "./lighting.ts";
import type { GroupReading, PersonReading } from "./types.ts";

/** What somebody takes away of a light is told from this share on. */
const TOLD_SHARE = 0.05;
const RINGS = 2;

/** Shape   people as read, in the order of the plan; null for fewer than two
 * Units   stops between the most and the least lit, by their lit cheeks */
export function readGroup(lighting: Lighting, people: readonly PersonReading[]): GroupReading | null {
  if (people.length < 2) return null;
  const byLight = [...people].sort((a, b) => b.face.litCheek - a.face.litCheek);
  const brightest = byLight[0];
  const darkest = byLight[byLight.length - 1];
  const dark = darkest.face.pattern === "dark";
  return {
    spreadStops: dark ? null : Math.log2(brightest.face.litCheek / darkest.face.litCheek),
    brightest: brightest.name,
    darkest: darkest.name,
    shading: lighting.quality === "fine" ? shading(lighting) : [],
  };
}

function shading(lighting: Lighting): GroupReading["shading"] {
  const { stage } = lighting;
  const out: GroupReading["shading"] = [];
  stage.people.forEach((on, face) => {
    stage.lights.forEach((light, l) => {
      if (!light.on) return;
      stage.people.forEach((by, person) => {
        if (person === face || !mayShade(lighting, person, face, l)) return;
        const share = shareTaken(lighting, person, face, l);
        if (share >= TOLD_SHARE) out.push({ light: light.name, by: by.name, on: on.name, share });
      });
    });
  });
  return out;
}

/** Whether any of somebody's meshes comes near the way from a light's front to a face. */
function mayShade({ stage }: Lighting, person: number, face: number, light: number): boolean {
  const e = stage.scene.emitters[light];
  const from = stage.people[face].headOffset;
  const way = [0, 1, 2].map((k) => e.centre[k] - from[k]);
  const length2 = way[0] ** 2 + way[1] ** 2 + way[2] ** 2;
  return stage.scene.meshes.some((mesh, i) => {
    const owner = stage.owners[i];
    if (!("person" in owner) || owner.person !== person) return false;
    const d = [0, 1, 2].map((k) => mesh.sphere[k] - from[k]);
    const t = Math.max(0, Math.min(1, (d[0] * way[0] + d[1] * way[1] + d[2] * way[2]) / length2));
    const off = Math.hypot(d[0] - t * way[0], d[1] - t * way[1], d[2] - t * way[2]);
    return off < mesh.sphere[3] + FACE_REACH + t * reach(e);
  });
}

/** No part of a face lies further from the middle between the ears, metres. */
const FACE_REACH = 0.15;

function shareTaken(lighting: Lighting, person: number, face: number, light: number): number {
  const { stage } = lighting;
  const without = new Tracer({
    ...stage.scene,
    meshes: stage.scene.meshes.filter((_, i) => {
      const owner = stage.owners[i];
      return !("person" in owner) || owner.person !== person;
    }),
  });
  const all = onFace(without, lighting, face, light);
  return all > 0 ? 1 - onFace(stage.tracer, lighting, face, light) / all : 0;
}

/** Light that one lamp sends straight onto the front of a face, summed over its area. */
function onFace(tracer: Tracer, { stage }: Lighting, face: number, light: number): number {
  const staged = stage.people[face];
  const samples = faceSamples(staged.shape.head, WORK.coarse.spacing);
  const world = worldSamples(staged, samples);
  const parts = cutFace(stage.scene.emitters[light], RINGS);
  let sum = 0;
  for (let s = 0; s < samples.count; s++) {
    const [x, y, z, nx, ny, nz] = world.subarray(6 * s, 6 * s + 6);
    sum += samples.area[s] * directFlat(tracer, light, parts, 0, 1, x, y, z, nx, ny, nz);
  }
  return sum;
}
