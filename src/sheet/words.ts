/** A plan's numbers in the trade's words. */
import { METER_CONSTANT } from "../photometry/index.ts";
import { type Backdrop, type Camera, directionOf, type Face, type Light, type Plan } from "../plan/index.ts";
import {
  type CameraReading,
  type FaceReading,
  fromNoseWords,
  type MeterReading,
  ratioNumberWords,
  ratioStopsWords,
} from "../reading/index.ts";
import {
  formatFStops,
  formatLength,
  formatShutter,
  type LengthUnits,
  METRES_PER_INCH,
} from "../units/index.ts";
import { type FromMark, type FromNose, type FromWalls, fromNose, type Nose } from "./place.ts";
import { aimedAt } from "./target.ts";

const POLYGON: Readonly<Record<number, string>> = {
  3: "triangle",
  4: "square",
  5: "pentagon",
  6: "hexagon",
  8: "octagon",
};

/** "1.7 stops cheek to cheek, 3.2:1 lit to shadow, 2.2:1 key to fill" */
export function ratioWords(face: FaceReading): string {
  const stops = ratioStopsWords(face);
  return stops === null ? ratioNumberWords(face) : `${stops} cheek to cheek, ${ratioNumberWords(face)}`;
}

export function aimWords(bearing_deg: number, tilt_deg: number): string {
  const tilt = Math.round(tilt_deg);
  const bearing = Math.round(bearing_deg) % 360;
  return `bearing ${bearing}°, ${tilt === 0 ? "level" : `${Math.abs(tilt)}° ${tilt > 0 ? "up" : "down"}`}`;
}

export function faceWords(face: Face, units: LengthUnits): string {
  if (face.shape === "point") return "bare point";
  const width = formatLength(face.width, units);
  if (face.shape === "disc") return `round, ${width}`;
  if (face.shape === "rectangle") return `${width} × ${formatLength(face.height, units)}`;
  return `${POLYGON[face.sides] ?? `${face.sides} sides`}, ${width}`;
}

/** As it is set on the head: what the plan gives, not what is computed from it. */
export function powerWords(light: Light, units: LengthUnits): string {
  const { output } = light;
  const down = (stops: number) => (stops === 0 ? "full power" : `${stops.toFixed(1)} stops down`);
  if ("wattSeconds" in output) return `${tidy(output.wattSeconds)} Ws, ${down(output.stopsDown)}`;
  if ("guideNumber" in output) {
    const [number, unit] =
      units === "feet" ? [output.guideNumber / METRES_PER_INCH / 12, "ft"] : [output.guideNumber, "m"];
    return `guide number ${tidy(number)} ${unit} at ISO ${tidy(output.iso)}, ${down(output.stopsDown)}`;
  }
  if ("lumenSeconds" in output) return `${tidy(output.lumenSeconds)} lm·s`;
  const { fNumber, iso, distance, receptor } = output.meter;
  return `set by meter: ${formatFStops(fNumber)} at ${formatLength(distance, units)} on its axis, ${receptor}, ISO ${tidy(iso)}`;
}

export function colourWords(light: Light, whiteBalance: number): string | null {
  const parts: string[] = [];
  if (light.kelvin !== whiteBalance) parts.push(`${tidy(light.kelvin)} K`);
  if (light.gel.rgb.some((c) => c < 1))
    parts.push(`gel passes ${light.gel.rgb.map((c) => Math.round(100 * c)).join("/")} %`);
  return parts.length === 0 ? null : parts.join(", ");
}

function tidy(value: number): string {
  return String(Number(value.toFixed(value < 10 ? 1 : 0)));
}

/** Lens, aperture, shutter, speed. */
export function exposureWords(camera: Camera): string {
  const shutter = formatShutter(camera.shutter);
  return `${tidy(camera.focalLength)} mm, ${apertureWords(camera.fNumber)}, ${shutter}, ISO ${tidy(camera.iso)}`;
}

/** As on the ring: an engraved stop stands alone. */
export function apertureWords(fNumber: number): string {
  return formatFStops(fNumber).replace(" + 0.0", "");
}

export function wallsWords(walls: FromWalls, units: LengthUnits): [string, string] {
  return [
    `${walls.side} wall ${formatLength(walls.side_m, units)}`,
    `${walls.depth} wall ${formatLength(walls.depth_m, units)}`,
  ];
}

/** Along the set's own axes, as seen from the camera side. */
export function markWords({ right_m, into_m }: FromMark, units: LengthUnits): [string, string] {
  // nearer than a tape is read, it stands in line
  const isLevel = Math.abs(right_m) < 0.005;
  const isAbreast = Math.abs(into_m) < 0.005;
  return [
    isLevel
      ? "in line, left to right"
      : `${formatLength(Math.abs(right_m), units)} ${right_m < 0 ? "left" : "right"}`,
    isAbreast
      ? "abreast"
      : `${formatLength(Math.abs(into_m), units)} ${into_m < 0 ? "to the camera side" : "into the set"}`,
  ];
}

export function noseWords(nose: FromNose | null): string {
  return nose === null ? "" : fromNoseWords(nose.side_deg, nose.elevation_deg);
}

export function backdropWords(b: Backdrop, units: LengthUnits): string {
  const length = (m: number) => formatLength(m, units);
  return `${length(b.width)} wide, curve ${length(b.sweepRadius)}, then ${length(b.floorLength)} of floor`;
}

/** "flat, pointed at key" */
export function meterWords(plan: Plan, index: number, noses: readonly Nose[]): string {
  const meter = plan.meters[index];
  const target = aimedAt(plan, meter.position, meter.direction, noses);
  const d = directionOf(meter.direction, meter.position);
  const way =
    target !== null ? `pointed at ${target}` : aimWords(((d.bearing_deg % 360) + 360) % 360, d.tilt_deg);
  return `${meter.receptor}, ${way}`;
}

/** The incident meter that is held nearest to a nose: every light is set by it alone. Null where there is none. */
export function settingMeter(plan: Plan, noses: readonly Nose[]): number | null {
  let best: number | null = null;
  let least = Infinity;
  plan.meters.forEach((meter, i) => {
    if (meter.receptor === "spot") return;
    const distance = fromNose(noses, meter.position)?.distance_m ?? 0;
    if (distance < least - 1e-9) {
      best = i;
      least = distance;
    }
  });
  return best;
}

/** What the meter shows for one light by itself, with all that this light's room returns; ambient light left out. */
export function aloneReading(
  plan: Plan,
  reading: MeterReading,
  receptor: "flat" | "dome",
  light: string,
): string {
  const share = Object.hasOwn(reading.byLight, light) ? reading.byLight[light] : null;
  if (share === null) return formatFStops(0);
  return formatFStops(
    Math.sqrt(((share.direct + share.bounced) * plan.camera.iso) / METER_CONSTANT[receptor]),
  );
}

export function headroomWords({ headroomStops, clipped }: CameraReading): string {
  if (headroomStops === null) return "no skin in the frame";
  const stops = Math.abs(headroomStops).toFixed(1);
  if (headroomStops >= 0) return `skin ${stops} stops below clipping`;
  return `skin clips, ${stops} stops over (${(100 * clipped.skin).toFixed(1)} % of it)`;
}

export function backgroundWords({ backgroundStops }: CameraReading): string | null {
  if (backgroundStops === null) return null;
  const stops = Math.abs(backgroundStops).toFixed(1);
  return Number(stops) === 0
    ? "background level with the lit cheek"
    : `background ${stops} stops ${backgroundStops < 0 ? "under" : "over"} the lit cheek`;
}
