import type { Plan } from "../plan/index.ts";
import { type Sharpness, sharpness } from "../reading/index.ts";
import { formatLength, type LengthUnits } from "../units/index.ts";
import { theOne, type Words } from "./wording.ts";

/** How far it is sharp, in words: before and behind the eyes, then the distances from the camera. */
export function depthWords(plan: Plan, person: number, units: LengthUnits): Words | null {
  const found = sharpness(plan, person);
  if (found === null) return null;
  const { near_m, far_m, focus_m, circle_mm } = found;
  const circle = `circle ${circle_mm.toFixed(3)} mm`;
  const whose = plan.people.length > 1 ? `${theOne(plan.people[person]?.name ?? "")}'s` : "the";
  const before = shortLength(focus_m - near_m, units);
  const behind = far_m === Infinity ? "all" : shortLength(far_m - focus_m, units);
  const first = units === "metric" ? withoutUnitOf(before, behind) : before;
  return {
    strong: `${first} and ${behind}`,
    rest: `sharp before and behind ${whose} eyes`,
    detail: `${limitsWords(found, units)}; ${circle}`,
  };
}

/** "2.21 to 2.38 m". */
export function limitsWords({ near_m, far_m }: Sharpness, units: LengthUnits): string {
  if (far_m === Infinity) return `from ${formatLength(near_m, units)} on`;
  const far = formatLength(far_m, units);
  const near = formatLength(near_m, units);
  return `${units === "metric" ? withoutUnitOf(near, far) : near} to ${far}`;
}

/** "6 cm", beside "7 cm" -> "6": a unit that both have is written once. */
function withoutUnitOf(text: string, beside: string): string {
  const unit = text.slice(text.lastIndexOf(" "));
  return beside.endsWith(unit) ? text.slice(0, -unit.length) : text;
}

/** Centimetres, or inches; millimetres where that says more. */
function shortLength(metres: number, units: LengthUnits): string {
  // so short a length is told in inches alone
  if (units === "feet") return formatLength(metres, units).replace(/^0′ /, "");
  if (metres < 0.0095) return `${Math.max(1, Math.round(metres * 1000))} mm`;
  return metres < 0.995 ? `${Math.round(metres * 100)} cm` : formatLength(metres, units);
}
