/** Our side of the race against a path tracer: the room scene, its points, and our error against the converged values. */
import { type Effort, irradianceOf, type Point } from "../reference/path-tracer.ts";

export type { Effort };

export function rmsError(points: readonly Point[], effort: Effort): number {
  const { irradiance } = irradianceOf("room", points, effort);
  let sum = 0;
  points.forEach((p, i) => {
    sum += (irradiance[i] / p.irradiance - 1) ** 2;
  });
  return Math.sqrt(sum / points.length);
}
