/** What a reading made on set must be beyond its fields: held somewhere, and of a light that is there. */
import { isLoose, type Loose } from "./fill-in.ts";
import { photometryProblems } from "./photometry.ts";
import { ALL_LIGHTS } from "./schema.ts";
import { type Add, lobe, names, type Path, RESERVED } from "./sense-parts.ts";

export function readingSense(plan: Loose, reading: Loose, path: Path, add: Add) {
  const { light, meter, position, stood } = reading;
  const lights = stood ?? plan.lights;
  if (typeof light === "string" && light !== ALL_LIGHTS && Array.isArray(lights) && !hasName(lights, light))
    add([...path, "light"], () => `must be "${ALL_LIGHTS}" or the name of a light; ${naming(lights)}`);
  if (Array.isArray(lights) && hasName(lights, ALL_LIGHTS))
    add([...path, "light"], () => `must say which: a light is called "${ALL_LIGHTS}"; give it another name`);
  if (meter === undefined && position === undefined)
    add([...path, "position"], () => "must be there, or the name of a meter of the plan: where was it held?");
  if (meter !== undefined && position !== undefined)
    add([...path, "position"], () => "must be left out where a meter is named: one of the two");
  if (typeof meter === "string" && Array.isArray(plan.meters) && !hasName(plan.meters, meter)) {
    const { meters } = plan;
    add([...path, "meter"], () => `must be the name of a meter of the plan; ${naming(meters)}`);
  }
  if (Array.isArray(stood)) asLights(plan, stood, [...path, "stood"], add);
}

function asLights(plan: Loose, stood: readonly unknown[], path: Path, add: Add) {
  names(stood, path, add);
  stood.forEach((light, i) => {
    if (!isLoose(light)) return;
    if (light.name === "ambient") add([...path, i, "name"], () => RESERVED);
    lobe(light, [...path, i], add);
    for (const { field, what } of photometryProblems(light, plan.photometry))
      add([...path, i, ...field], () => what);
  });
}

function hasName(items: readonly unknown[], name: string): boolean {
  return items.some((item) => isLoose(item) && item.name === name);
}

function naming(items: readonly unknown[]): string {
  const all = items.flatMap((item) =>
    isLoose(item) && typeof item.name === "string" ? [`"${item.name.slice(0, 80)}"`] : [],
  );
  return all.length === 0 ? "there is none" : `there is ${all.slice(0, 8).join(", ")}`;
}
