/** A grey card in frames of the desk: its level in each, and the camera's curve from a bracket of it. */
import { decodeSrgb } from "../photometry/index.ts";
import {
  bodyOf,
  cardLevel,
  exposureStops,
  type FittedResponse,
  fitResponse,
  type LinearPicture,
  type Photograph,
  type PixelBox,
} from "../testframe/index.ts";
import type { TestFrame } from "../workbench/index.ts";
import { pictureOf } from "./frames-client.ts";

/** As many as a curve needs. */
export const FEWEST_CARDS = 5;

/** Linear light of each level of a file of 8 bits. */
const LEVELS = Float32Array.from({ length: 256 }, (_, level) => decodeSrgb(level / 255));

/** The level of the card in the middle of a frame, by its picture for the screen: eight bits, which at three stops under
 * middle grey are a fortieth of a stop. */
export async function cardOf({ id, reading }: TestFrame): Promise<number> {
  const answer = await fetch(pictureOf(id));
  if (!answer.ok) throw new Error(`the picture of ${reading.image.name} is not to be had`);
  const bitmap = await createImageBitmap(await answer.blob());
  const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
  const context = canvas.getContext("2d", { willReadFrequently: true });
  if (context === null) throw new Error("this browser gives no pixels");
  context.drawImage(bitmap, 0, 0);
  const { data, width, height } = context.getImageData(0, 0, bitmap.width, bitmap.height);
  const { image } = reading;
  const photo: Photograph = {
    ...image,
    width,
    height,
    tones: image,
    picture: { width, height, rgb: new Float32Array() },
    clippedShare: new Uint8Array(),
    notes: [],
    crop: (box) => linearPart(data, width, box),
  };
  return cardLevel(photo).level;
}

function linearPart(data: Uint8ClampedArray, across: number, box: PixelBox): LinearPicture {
  const rgb = new Float32Array(3 * box.width * box.height);
  for (let y = 0, to = 0; y < box.height; y++)
    for (let x = 0; x < box.width; x++)
      for (let c = 0; c < 3; c++)
        rgb[to++] = LEVELS[data[4 * ((box.top + y) * across + box.left + x) + c] as number] as number;
  return { width: box.width, height: box.height, rgb };
}

export type FittedBody =
  | (Extract<FittedResponse, { kind: "fitted" }> & { readonly body: string })
  | { readonly kind: "problem"; readonly problem: string; readonly cure: string };

/** The curve from frames of one camera and their cards' levels; the middle of the bracket is taken as metered. */
export function fitBracket(frames: readonly TestFrame[], levels: readonly number[]): FittedBody {
  const bodies = new Set(frames.map(({ reading }) => bodyOf(reading.image.exif)));
  const [body] = bodies;
  if (bodies.size > 1)
    return problem("the frames come from several cameras", "take a bracket for each of them");
  if (body === null || body === undefined)
    return problem("the frames do not say which camera took them", "use files as the camera writes them");
  const exposures = frames.map(({ reading }) => exposureStops(reading.image.exif));
  const set = exposures.filter((stops) => stops !== null);
  if (set.length < exposures.length)
    return problem("a frame does not say how it was exposed", "use files as the camera writes them");
  const metered = (Math.min(...set) + Math.max(...set)) / 2;
  const fitted = fitResponse(set.map((stops, i) => ({ stops: stops - metered, level: levels[i] as number })));
  return fitted.kind === "problem" ? fitted : { ...fitted, body };
}

function problem(text: string, cure: string): FittedBody {
  return { kind: "problem", problem: text, cure };
}
