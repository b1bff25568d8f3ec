/** What else a plan holds that the light depends on: with the tables, all that it takes to type it in again.
 *
 * Tape and meter rebuild the light; this is for whoever works it out anew, from paper alone. */
import {
  beamAngle,
  directionOf,
  type Light,
  type Person,
  type Plan,
  type Reflectance,
  type Room,
  type SkinReflectance,
} from "../plan/index.ts";
import { formatLength, formatStops, type LengthUnits } from "../units/index.ts";
import { aimWords, spotWords, tidy } from "./words.ts";

export interface RebuildLine {
  readonly of: string;
  readonly text: string;
}

export function rebuildLines(plan: Plan, units: LengthUnits): RebuildLine[] {
  const lines: RebuildLine[] = [];
  const add = (of: string, parts: readonly (string | null)[]) => lines.push({ of, text: joined(parts) });
  if (plan.room !== null) add("room", roomParts(plan.room));
  if (plan.ambient.lux > 0) add("ambient light", [`${tidy(plan.ambient.lux)} lx`]);
  lines.push(...alike(plan.lights.map((light) => ({ of: light.name, text: joined(lightParts(light)) }))));
  if (plan.backdrop !== null) add("backdrop", [`gives back ${shareWords(plan.backdrop.reflectance)}`]);
  lines.push(
    ...alike(plan.people.map((person) => ({ of: person.name, text: joined(personParts(person, units)) }))),
  );
  for (const meter of plan.meters) {
    const { bearing_deg, tilt_deg } = directionOf(meter.direction, meter.position);
    add(/^meter\b/i.test(meter.name) ? meter.name : `meter ${meter.name}`, [
      spotWords(plan, meter.position, units),
      `${formatLength(meter.position[2], units)} high`,
      aimWords((bearing_deg + 360) % 360, tilt_deg),
    ]);
  }
  add("camera", [`clips ${tidy(plan.camera.headroom)} stops over the middle level`]);
  return lines;
}

function joined(parts: readonly (string | null)[]): string {
  return parts.filter((part) => part !== null).join(", ");
}

/** Whoever is the same in everything is told together, at the place of the first: "key, fill: beam 120°". */
function alike(lines: readonly RebuildLine[]): RebuildLine[] {
  const names = new Map<string, string[]>();
  for (const { of, text } of lines) names.set(text, [...(names.get(text) ?? []), of]);
  return [...names].map(([text, all]) => ({ of: all.join(", "), text }));
}

/** "35 %", "85/80/72 %" */
export function shareWords(value: Reflectance): string {
  const one = (share: number) => Number((100 * share).toFixed(share < 0.1 ? 1 : 0));
  return `${typeof value === "number" ? one(value) : value.map(one).join("/")} %`;
}

function roomParts({ reflectance: r, bounce, calibration }: Room): (string | null)[] {
  const walls = { near: r.near, far: r.far, left: r.left, right: r.right };
  const said = Object.entries(walls).map(([wall, share]) => [wall, shareWords(share)] as const);
  const isEven = new Set(said.map(([, share]) => share)).size === 1;
  return [
    `floor ${shareWords(r.floor)}`,
    `ceiling ${shareWords(r.ceiling)}`,
    ...(isEven ? [`walls ${said[0][1]}`] : said.map(([wall, share]) => `${wall} wall ${share}`)),
    bounce ? null : "its bounce left out",
    calibration === null ? null : `measured to return ${formatStops(calibration.bounceStops)} stops`,
  ];
}

function lightParts({ beam, face, output, kelvin, calibration, head }: Light): (string | null)[] {
  const angle = `beam ${Number(beamAngle(beam.exponent).toFixed(1))}°`;
  return [
    beam.photometry === undefined ? angle : `beam by the file ${beam.photometry}`,
    beam.edgeDrop > 0 && face.shape !== "point" ? `rim ${tidy(beam.edgeDrop)} stops under the middle` : null,
    `${tidy(kelvin)} K`,
    "wattSeconds" in output
      ? `${tidy(output.lumensPerWatt)} lm/W, ${shareWords(output.efficiency)} of it leaves the front`
      : null,
    calibration === null ? null : `measured ${formatStops(calibration.stops)} stops over its dial`,
    // which of those on the shelf it was
    head?.name === undefined ? null : `head ${head.name}`,
    head?.modifier === undefined ? null : `front ${head.modifier}`,
  ];
}

function personParts(person: Person, units: LengthUnits): (string | null)[] {
  const { stature, eyeHeight, headSize, hair, glasses, skin, clothing } = person;
  return [
    `${formatLength(stature, units)} tall`,
    eyeHeight === undefined ? null : `eyes ${formatLength(eyeHeight, units)} high`,
    headSize === 50 ? null : `head larger than ${tidy(headSize)} in 100`,
    hair.length === "none" ? "no hair" : `${hair.length} hair ${shareWords(hair.reflectance)}`,
    `skin ${skinWords(skin.reflectance)}`,
    skin.shine === 1 ? null : `shine ${tidy(skin.shine)}`,
    skin.roughness === 0.3 ? null : `roughness ${tidy(skin.roughness)}`,
    `clothes ${shareWords(clothing.reflectance)}`,
    glasses === null
      ? null
      : `glasses ${tidy(1000 * glasses.lensWidth)} × ${tidy(1000 * glasses.lensHeight)} mm, tilt ${tidy(glasses.tilt)}°, wrap ${tidy(glasses.wrap)}°, ${tidy(glasses.curve)} dioptres, ${glasses.coated ? "coated" : "bare"}`,
  ];
}

function skinWords(skin: SkinReflectance): string {
  if (typeof skin === "number" || Array.isArray(skin)) return shareWords(skin);
  if ("tone" in skin) return skin.tone;
  return `L*a*b* ${skin.lab.map(tidy).join("/")}`;
}
