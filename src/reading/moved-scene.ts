/** A scene with one person carried to another place, the head turned about its own origin and its neck with it. */
import { type MeshInstance, rotate, type Scene } from "../engine/index.ts";
import type { Stage, StagedPerson } from "../staging/index.ts";
import { turnBack } from "./quick-place.ts";

/** `meshes` are the person's, by place in the scene; `staged` says where they are to be. */
export function sceneWith({ scene, owners }: Stage, meshes: readonly number[], staged: StagedPerson): Scene {
  const moved = scene.meshes.map((mesh, i): MeshInstance => {
    if (!meshes.includes(i)) return mesh;
    if (owners[i].kind === "body") return carried(mesh, mesh.rotation, staged.bodyOffset);
    return carried(mesh, staged.headRotation, staged.headOffset);
  });
  return { ...scene, meshes: moved };
}

function carried(mesh: MeshInstance, rotation: Float64Array, offset: Float64Array): MeshInstance {
  const middle = Float64Array.from(mesh.offset, (x, k) => mesh.sphere[k] - x);
  turnBack(mesh.rotation, middle, middle);
  const sphere = new Float64Array(4);
  rotate(rotation, middle, 0, sphere, 0);
  for (let k = 0; k < 3; k++) sphere[k] += offset[k];
  sphere[3] = mesh.sphere[3];
  return { ...mesh, rotation, offset, sphere };
}
