/** A plan's numbers in the trade's words. */
import { METER_CONSTANT } from "../photometry/index.ts";
import {
  type Backdrop,
  type Camera,
  directionOf,
  type Face,
  type Light,
  type Panel,
  type Person,
  type Plan,
  type Vec3,
  writePower,
} from "../plan/index.ts";
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
import { type FromMark, type FromNose, type FromWalls, fromNose, measureFloor, type Nose } from "./place.ts";
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

/** To half a degree: what is read off a phone laid on a head, and fine enough to set a narrow beam up again. */
export function halfDegrees(angle_deg: number): string {
  return `${Math.round(2 * angle_deg) / 2}°`.replace("-", "−");
}

export function aimWords(bearing_deg: number, tilt_deg: number): string {
  return `bearing ${halfDegrees(bearing_deg).replace("360°", "0°")}, ${tiltWords(tilt_deg)}`;
}

/** "level", "33.5° down" */
export function tiltWords(tilt_deg: number): string {
  const tilt = halfDegrees(Math.abs(tilt_deg));
  return tilt === "0°" ? "level" : `${tilt} ${tilt_deg > 0 ? "up" : "down"}`;
}

export function faceWords(face: Face, units: LengthUnits): string {
  if (face.shape === "point") return "bare point";
  const width = formatLength(face.width, units);
  if (face.shape === "disc") return `round, ${width}`;
  if (face.shape === "rectangle") return `${width} × ${formatLength(face.height, units)}`;
  return `${POLYGON[face.sides] ?? `${face.sides} sides`}, ${width}`;
}

/** As it is set on the head, by the marks of its dial: what the plan gives, not what is computed from it. */
export function powerWords(light: Light, units: LengthUnits): string {
  const { dial, output } = light;
  const full_Ws = "wattSeconds" in output ? output.wattSeconds : null;
  const down = (stops: number) => {
    if (stops === 0) return "full power";
    const isInStops = dial.marked === "stops" || (dial.marked === "wattSeconds" && full_Ws === null);
    return isInStops ? `${stops.toFixed(1)} stops down` : `at ${writePower(stops, dial, full_Ws)}`;
  };
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

/** Whole numbers, and three digits below a hundred. */
export function tidy(value: number): string {
  return String(value < 99.5 ? Number(value.toPrecision(3)) : Math.round(value));
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
  return `${formatLength(b.width, units)} wide, ${sweepWords(b, units)}`;
}

/** "curve 0.30 m, then 1.20 m of floor" */
export function sweepWords(b: Backdrop, units: LengthUnits): string {
  return `curve ${formatLength(b.sweepRadius, units)}, then ${formatLength(b.floorLength, units)} of floor`;
}

/** "seated, seat 0.45 m" */
export function poseWords(person: Person, units: LengthUnits): string {
  return person.pose === "seated" ? `seated, seat ${formatLength(person.seatHeight, units)}` : "standing";
}

/** How the head is held over the body; nothing where it looks straight ahead. */
export function headWords({ head: { follows, turn, tip, tilt } }: Person): string[] {
  const words: string[] = follows === "camera" ? ["nose to the camera"] : [];
  if (turn !== 0) words.push(`head ${halfDegrees(Math.abs(turn))} to own ${turn > 0 ? "left" : "right"}`);
  if (tip !== 0) words.push(`chin ${halfDegrees(Math.abs(tip))} ${tip > 0 ? "up" : "down"}`);
  if (tilt !== 0)
    words.push(`${halfDegrees(Math.abs(tilt))} toward own ${tilt > 0 ? "left" : "right"} shoulder`);
  return words;
}

export function bearingWords(bearing_deg: number): string {
  return `faces bearing ${halfDegrees(bearing_deg).replace("360°", "0°")}`;
}

/** "roll −15°"; null where it is not turned about its own axis */
export function rollWords(roll_deg: number): string | null {
  const roll = halfDegrees(roll_deg);
  return roll === "0°" || roll === "−0°" ? null : `roll ${roll}`;
}

/** "panel 1.20 m × 2.40 m, 4 % back" */
export function panelWords({ width, height, reflectance, transmittance }: Panel, units: LengthUnits): string {
  const percent = (share: number) => `${Math.round(100 * share)} %`;
  const back =
    typeof reflectance === "number" ? percent(reflectance) : `${reflectance.map(percent).join("/")}`;
  const through = transmittance > 0 ? `, ${percent(transmittance)} through` : "";
  return `panel ${formatLength(width, units)} × ${formatLength(height, units)}, ${back} back${through}`;
}

/** "the mark", "viola's mark", "zero point" */
export function markName(mark: FromMark, plan: Plan): string {
  if (mark.person === null) return "zero point";
  return plan.people.length > 1 ? `${mark.person}'s mark` : "mark";
}

/** Where a meter is held: "1.50 m high, 0.03 m from the nose" */
export function heldWords(plan: Plan, index: number, noses: readonly Nose[], units: LengthUnits): string {
  const { position } = plan.meters[index];
  const height = `${formatLength(position[2], units)} high`;
  const nose = fromNose(noses, position);
  return nose === null ? height : `${height}, ${formatLength(nose.distance_m, units)} from the nose`;
}

/** Over which spot of the floor: "left wall 3.50 m, near wall 4.44 m" */
export function spotWords(plan: Plan, position: Readonly<Vec3>, units: LengthUnits): string {
  const { walls, mark } = measureFloor(plan, position);
  if (walls !== null) return wallsWords(walls, units).join(", ");
  return `${markWords(mark, units).join(", ")} of ${markName(mark, plan) === "mark" ? "the mark" : markName(mark, plan)}`;
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

/** "chin, flat, pointed at key"; a meter that is called after its receptor is named once: "the dome, pointed at the camera" */
export function calledMeter(name: string, held: string): string {
  return held.startsWith(`${name}, `) ? `the ${held}` : `${name}, ${held}`;
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

/** The flat meter nearest to a nose, with which a flat receptor at the paper is compared; the setting meter where there is
 * none. */
export function keyMeter(plan: Plan, noses: readonly Nose[]): number | null {
  const flats = plan.meters.map((meter) =>
    meter.receptor === "flat" ? meter : { ...meter, receptor: "spot" as const },
  );
  return settingMeter({ ...plan, meters: flats }, noses) ?? settingMeter(plan, noses);
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
  return formatFStops(aloneFNumber(plan, share, receptor));
}

export function aloneFNumber(
  plan: Plan,
  share: MeterReading["byLight"][string],
  receptor: "flat" | "dome",
): number {
  return Math.sqrt(((share.direct + share.bounced) * plan.camera.iso) / METER_CONSTANT[receptor]);
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

/** "room 7.00 m wide, 9.00 m deep, 3.40 m high" */
export function roomWords({ room }: Pick<Plan, "room">, units: LengthUnits): string {
  if (room === null) return "open space, no walls given";
  const [width, depth, height] = [room.width, room.depth, room.height].map((m) => formatLength(m, units));
  return `room ${width} wide, ${depth} deep, ${height} high`;
}
