/** What differs between plan and frame in numbers: each with how sure the frame is of it. The causes go by these. */
import type { Plan } from "../plan/index.ts";
import { fromNoseWords, type TryReading } from "../reading/index.ts";
import type { PlannedFace } from "./compare-planned.ts";
import { cannotTell, stopsWords, UNSURE } from "./compare-words.ts";
import type { ComparedLine, PhotoFace, PhotoReading } from "./types.ts";

export interface ComparedFrame {
  readonly plan: Plan;
  readonly person: number;
  readonly photo: PhotoReading;
  /** which of the photograph's faces is that person's */
  readonly face: number;
  /** reads the plan or a variation of it: coarse is fine enough */
  readonly read: (plan: Plan) => TryReading;
}

/** Seen minus planned, and one standard deviation of what is not known of it. */
export interface Difference {
  readonly amount: number;
  readonly sure: number;
}

export interface Observed {
  readonly lines: readonly ComparedLine[];
  /** stops */
  readonly exposure: Difference | null;
  readonly ratio: Difference | null;
  readonly background: Difference | null;
  /** degrees, in the head's axes */
  readonly azimuth: Difference | null;
  readonly elevation: Difference | null;
  /** stops by which the camera's own settings, as the file tells them, brighten the frame against the plan's; 0 unknown */
  readonly settingsStops: number;
}

/** Stops, seen by a practised eye side by side (common practice, no source), and told if it is more than a tenth. */
const NOTICED_STOPS = 0.3;
const TOLD_STOPS = 0.15;
/** A step of the light that a person would make. */
const NOTICED_DEGREES = 8;
const TOLD_DEGREES = 4;
/** Half of all readings lie within two thirds of what they say; nineteen of twenty then lie within so many times that. */
const SURELY = 1.4;
/** A camera's own picture without its curve known: middle tones may lie so far off (measured on three made-up curves,
 * docs/test-frames.md). */
const UNKNOWN_CURVE_STOPS = 0.7;
const KNOWN_CURVE_STOPS = 0.15;
/** Skin is lighter or darker than the plan's guess by so much where nobody measured it (common practice, no source). */
const SKIN_STOPS = 0.25;
const BACKGROUND_STOPS = 0.3;
/** The middle level decodes to this share of full (plan format: level 118 of 255). */
const MIDDLE_SHARE_STOPS = -Math.log2(0.1812);

export function observedOf(frame: ComparedFrame, reading: TryReading, planned: PlannedFace): Observed {
  const { plan, photo } = frame;
  const face = photo.faces[frame.face];
  const settingsStops = settingsOf(plan.camera, photo);
  const exposure = exposureOf(photo, face, planned);
  const ratio = differenceOf(face.ratioStops, reading.ratioStops, face.ratioUncertaintyStops ?? 0.5);
  const background = differenceOf(face.backgroundStops, reading.backgroundStops, BACKGROUND_STOPS);
  const sure = face.uncertaintyDegrees ?? 15;
  const azimuth = differenceOf(face.light?.azimuth ?? null, reading.light.azimuth, sure, 360);
  const elevation = differenceOf(face.light?.elevation ?? null, reading.light.elevation, sure);
  return {
    exposure,
    ratio,
    background,
    azimuth,
    elevation,
    settingsStops,
    lines: [
      stopsLine("exposure", exposure, planned.litCheekStops, ["over", "under"], "from middle grey"),
      stopsLine("ratio", ratio, reading.ratioStops, ["higher", "lower"], "cheek to cheek"),
      directionLine(reading, face, azimuth, elevation),
      stopsLine(
        "background",
        background,
        reading.backgroundStops,
        ["lighter", "darker"],
        "from the lit cheek",
      ),
    ],
  };
}

function exposureOf(photo: PhotoReading, face: PhotoFace, planned: PlannedFace): Difference | null {
  if (face.litCheekStops === null) return null;
  const { response } = photo.image;
  const middle = response === null ? MIDDLE_SHARE_STOPS : response.clippingStops;
  const curve = response === null ? UNKNOWN_CURVE_STOPS : KNOWN_CURVE_STOPS;
  return {
    amount: middle - face.litCheekStops - planned.litCheekStops,
    sure: Math.hypot(curve, SKIN_STOPS),
  };
}

/** As the file tells them: what a stop of the lens, the shutter (for what is not flash) and the sensor make is known. */
function settingsOf(camera: { fNumber: number; iso: number }, { image: { exif } }: PhotoReading): number {
  const lens = exif.fNumber === null ? 0 : 2 * Math.log2(camera.fNumber / exif.fNumber);
  const speed = exif.iso === null ? 0 : Math.log2(exif.iso / camera.iso);
  return lens + speed;
}

function differenceOf(
  seen: number | null,
  planned: number | null,
  sure: number,
  round: number | null = null,
): Difference | null {
  if (seen === null || planned === null) return null;
  const amount = seen - planned;
  return { amount: round === null ? amount : amount - round * Math.round(amount / round), sure };
}

function stopsLine(
  what: "exposure" | "ratio" | "background",
  difference: Difference | null,
  planned: number | null,
  [more, less]: readonly [string, string],
  against: string,
): ComparedLine {
  const plus = what === "ratio" ? "" : "+";
  const stops = (x: number) => {
    const text = Math.abs(x).toFixed(1);
    return `${text === "0.0" ? "" : x < 0 ? "−" : plus}${text} stops ${against}`;
  };
  const told = planned === null ? "no number" : stops(planned);
  if (difference === null || planned === null) return cannotTell(what, told);
  const { amount, sure } = difference;
  const size = Math.abs(amount);
  const about = sure > NOTICED_STOPS ? UNSURE : "";
  const words = `${stopsWords(size)} ${amount > 0 ? more : less}`;
  return {
    what,
    planned: told,
    seen: `${stops(planned + amount)}, good to ${stopsWords(sure)}`,
    difference: size > TOLD_STOPS ? `${words}${size > Math.max(NOTICED_STOPS, sure) ? "" : about}` : "",
    amount,
    state: size > Math.max(NOTICED_STOPS, sure) ? "differs" : "as planned",
  };
}

function directionLine(
  reading: TryReading,
  face: PhotoFace,
  azimuth: Difference | null,
  elevation: Difference | null,
): ComparedLine {
  const { light } = reading;
  const planned =
    light.azimuth === null || light.elevation === null
      ? "from nowhere"
      : fromNoseWords(light.azimuth, light.elevation);
  if (azimuth === null || elevation === null || face.light === null) return cannotTell("direction", planned);
  const angle = angleBetween(face.light, light as { azimuth: number; elevation: number });
  const limit = Math.max(NOTICED_DEGREES, SURELY * azimuth.sure);
  const parts = [
    Math.abs(elevation.amount) >= TOLD_DEGREES
      ? `${Math.round(Math.abs(elevation.amount))}° ${elevation.amount > 0 ? "higher" : "lower"}`
      : "",
    Math.abs(azimuth.amount) >= TOLD_DEGREES
      ? `${Math.round(Math.abs(azimuth.amount))}° more to own ${azimuth.amount > 0 ? "left" : "right"}`
      : "",
  ].filter((part) => part !== "");
  return {
    what: "direction",
    planned,
    seen: `${fromNoseWords(face.light.azimuth, face.light.elevation)}, good to ${Math.round(azimuth.sure)}°`,
    difference: angle >= TOLD_DEGREES ? parts.join(", ") : "",
    amount: angle,
    state: angle > limit ? "differs" : "as planned",
  };
}

const DEGREE = Math.PI / 180;

export function angleBetween(
  a: { readonly azimuth: number; readonly elevation: number },
  b: { readonly azimuth: number; readonly elevation: number },
): number {
  const [ea, eb] = [a.elevation * DEGREE, b.elevation * DEGREE];
  const cosine =
    Math.sin(ea) * Math.sin(eb) + Math.cos(ea) * Math.cos(eb) * Math.cos((a.azimuth - b.azimuth) * DEGREE);
  return Math.acos(Math.max(-1, Math.min(1, cosine))) / DEGREE;
}
