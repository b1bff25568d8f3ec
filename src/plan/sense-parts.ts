/** Checks of sense that the plan and its brief share. */
import { isLoose, isNumber, type Loose } from "./fill-in.ts";
import { pathText } from "./problems.ts";

export type Path = readonly PropertyKey[];
export type Add = (path: Path, say: () => string) => void;

export const RESERVED = 'must be another name than "ambient": readings keep that word for the ambient light';

/** No two of one list share a name. */
export function names(items: readonly unknown[], path: Path, add: Add) {
  const first = new Map<string, number>();
  items.forEach((item, i) => {
    if (!isLoose(item) || typeof item.name !== "string") return;
    const { name } = item;
    const earlier = first.get(name);
    if (earlier === undefined) first.set(name, i);
    else
      add([...path, i, "name"], () => {
        return `must be a name of its own; "${name.slice(0, 80)}" is already ${pathText([...path, earlier])}`;
      });
  });
}

export function lobe({ face, beam }: Loose, path: Path, add: Add) {
  const exponent = isLoose(beam) ? beam.exponent : undefined;
  if (!isLoose(face) || face.shape === "point" || !isNumber(exponent) || exponent >= 1 || exponent < 0)
    return;
  add([...path, "beam", "exponent"], () => {
    return `must be a number from 1 to 60 for a front with a size (0 to 60 for a point); it is ${exponent}`;
  });
}
