/** How the frames of a run drift from their model: exposure, colour of skin, place and size of the head. */
import { lightColour, miredShift } from "../photometry/index.ts";
import { stopsWords } from "./compare-words.ts";
import type { FrameDrift, PhotoFace, PhotoReading } from "./types.ts";

/** What is flagged: a third of a stop short of what is seen side by side; the drift that a day's run of heads allows
 * (common practice, no source). */
const EXPOSURE_STOPS = 0.2;
const COLOUR_MIREDS = 9;
const PLACE_SHARE = 0.25;
const SIZE_SHARE = 0.05;

/** Every frame against the model; the first that has a face where none is named.
 * Errors  none; what cannot be told is null */
export function driftOf(frames: readonly PhotoReading[], model = 0): FrameDrift[] {
  const reference = frames[model]?.faces[0] ?? null;
  return frames.map((frame, i) => {
    const face = frame.faces[0] ?? null;
    if (face === null) return { ...NOTHING, name: frame.image.name, flags: ["no face found"] };
    if (reference === null) return { ...NOTHING, name: frame.image.name };
    const drift = {
      name: frame.image.name,
      exposureStops:
        face.litCheekStops === null || reference.litCheekStops === null
          ? null
          : reference.litCheekStops - face.litCheekStops,
      colourMireds: colourMireds(reference.skinColour, face.skinColour),
      ...placeOf(frames[model], reference, frame, face),
    };
    return { ...drift, flags: i === model ? [] : flagsOf(drift) };
  });
}

const NOTHING = {
  exposureStops: null,
  colourMireds: null,
  aside: null,
  up: null,
  size: null,
  flags: [],
} as const;

/** In shares of the model's head, so that frames of other sizes count alike. */
function placeOf(
  { image: before }: PhotoReading,
  a: PhotoFace,
  { image: now }: PhotoReading,
  b: PhotoFace,
): Pick<FrameDrift, "aside" | "up" | "size"> {
  const scale = before.width / now.width;
  // turned on its side it is no frame of the same run
  if (Math.abs(before.width / before.height / (now.width / now.height) - 1) > 0.02)
    return { aside: null, up: null, size: null };
  const middle = ({ box }: PhotoFace, k: number) => [
    k * (box.left + box.width / 2),
    k * (box.top + box.height / 2),
  ];
  const [xa, ya] = middle(a, 1);
  const [xb, yb] = middle(b, scale);
  return {
    aside: (xb - xa) / a.box.height,
    up: (ya - yb) / a.box.height,
    size: (scale * b.box.height) / a.box.height - 1,
  };
}

/** Of light that changes from 5500 K: what red over blue of the same skin tells. */
const KELVIN = 5500;
const STEP_MIREDS = 10;

function colourMireds(a: PhotoFace["skinColour"], b: PhotoFace["skinColour"]): number | null {
  if (a === null || b === null) return null;
  if (Math.min(a[0], a[2], b[0], b[2]) <= 0) return null;
  const warmer = 1e6 / (1e6 / KELVIN + STEP_MIREDS);
  const [red, , blue] = lightColour(warmer, KELVIN);
  const perMired = Math.log2(red / blue) / miredShift(KELVIN, warmer);
  return Math.log2(b[0] / b[2] / (a[0] / a[2])) / perMired;
}

function flagsOf({
  exposureStops,
  colourMireds: mireds,
  aside,
  up,
  size,
}: Omit<FrameDrift, "flags">): string[] {
  const flags: string[] = [];
  if (exposureStops !== null && Math.abs(exposureStops) > EXPOSURE_STOPS)
    flags.push(`${stopsWords(exposureStops)} ${exposureStops > 0 ? "lighter" : "darker"}`);
  if (mireds !== null && Math.abs(mireds) > COLOUR_MIREDS)
    flags.push(`${Math.round(Math.abs(mireds))} mired ${mireds > 0 ? "warmer" : "cooler"}`);
  if (aside !== null && Math.abs(aside) > PLACE_SHARE)
    flags.push(`head to picture ${aside > 0 ? "right" : "left"}`);
  if (up !== null && Math.abs(up) > PLACE_SHARE) flags.push(`head ${up > 0 ? "higher" : "lower"}`);
  if (size !== null && Math.abs(size) > SIZE_SHARE)
    flags.push(`head ${Math.round(100 * Math.abs(size))} % ${size > 0 ? "larger" : "smaller"}`);
  return flags;
}
