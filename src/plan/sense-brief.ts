/** What a brief must be beyond its fields: about somebody who is there, from less to more, gear told apart. */
import { isLoose, isNumber, type Loose } from "./fill-in.ts";
import { type Add, lobe, names, type Path, RESERVED } from "./sense-parts.ts";

const RANGES = [
  "ratioStops",
  "shadowEdgeMillimetres",
  "backgroundStops",
  "fNumber",
  "azimuth",
  "elevation",
] as const;
const UNITS: Readonly<Record<string, string>> = {
  ratioStops: " stops",
  shadowEdgeMillimetres: " mm",
  backgroundStops: " stops",
  azimuth: " degrees",
  elevation: " degrees",
  cameraDistance: " m",
};

export function briefSense(plan: Loose, brief: Loose, add: Add) {
  const there = Array.isArray(plan.people) ? plan.people.length : 0;
  person(brief, there, add);
  if (isLoose(brief.want)) {
    for (const field of RANGES) range(brief.want[field], field, ["brief", "want", field], add);
    spread(brief.want, there, add);
  }
  range(brief.cameraDistance, "cameraDistance", ["brief", "cameraDistance"], add);
  if (!isLoose(brief.gear)) return;
  for (const list of ["lights", "panels"] as const) {
    const items = brief.gear[list];
    if (!isShort(items)) continue;
    names(items, ["brief", "gear", list], add);
    if (list === "lights")
      items.forEach((light, i) => {
        if (isLoose(light)) gearLight(light, ["brief", "gear", list, i], add);
      });
  }
}

/** A plan that nobody stands in yet may already say what is wanted of whoever comes first. */
function person({ person }: Loose, there: number, add: Add) {
  if (!isNumber(person) || person === 0 || person < there) return;
  const cure =
    there === 0
      ? "nobody is in the plan: 0 is whoever comes first"
      : `people has ${there}, and the first is 0`;
  add(["brief", "person"], () => `must be the place of somebody in people; it is ${person}, ${cure}`);
}

function spread({ spreadStops }: Loose, there: number, add: Add) {
  if (!isNumber(spreadStops) || there >= 2) return;
  add(
    ["brief", "want", "spreadStops"],
    () => `must be null or left out where fewer than two people are in the plan; it is ${spreadStops}`,
  );
}

function range(value: unknown, field: string, path: Path, add: Add) {
  if (!isLoose(value)) return;
  const { from, to } = value;
  if (!isNumber(from) || !isNumber(to) || from <= to) return;
  const unit = UNITS[field] ?? "";
  add([...path, "from"], () => `must be at most ${to}${unit}, where the range ends; it is ${from}${unit}`);
}

function gearLight(light: Loose, path: Path, add: Add) {
  if (light.name === "ambient") add([...path, "name"], () => RESERVED);
  if (isShort(light.fronts)) {
    names(light.fronts, [...path, "fronts"], add);
    light.fronts.forEach((front, k) => {
      if (isLoose(front)) lobe(front, [...path, "fronts", k], add);
    });
  }
  const { lowest, highest } = isLoose(light.stand) ? light.stand : {};
  if (!isNumber(lowest) || !isNumber(highest) || lowest <= highest) return;
  add([...path, "stand", "lowest"], () => `must be at most ${highest} m, the highest; it is ${lowest} m`);
}

/** More than any brief may have is told as such, and what is in it need not be looked at. */
const MOST = 12;

function isShort(items: unknown): items is readonly unknown[] {
  return Array.isArray(items) && items.length <= MOST;
}
