/** What is painted for a picture and a look: pixels, nothing else. */
import type { FramePicture } from "../workbench/index.ts";
import type { FrameLook } from "./frame-look.ts";
import { ToneTable } from "./frame-tone.ts";
import { ZONES, zoneOf } from "./frame-zones.ts";

/** Clipped skin is striped, in a colour that nothing in a lit face has; what clips elsewhere is dotted, in ink. */
const STRIPE = [74, 60, 255] as const;
const DOT = [20, 24, 30] as const;
const WHITE = [255, 255, 255] as const;
/** Period of both, pixels of what is painted. */
const PERIOD = 6;

export interface Painted {
  readonly width: number;
  readonly height: number;
  readonly pixels: Uint8ClampedArray<ArrayBuffer>;
}

/** The picture as it is looked at. A pattern has to be finer than the picture's own pixels: with clipping on each of them
 * is painted as `finer` x `finer`. */
export function paint(picture: FramePicture, look: FrameLook, finer: number): Painted {
  const toned = look.zones ? zoned(picture) : look.mono.on ? toneless(picture, look) : picture.rgba;
  if (!look.clipping) {
    return { width: picture.width, height: picture.height, pixels: new Uint8ClampedArray(toned) };
  }
  const width = picture.width * finer;
  const height = picture.height * finer;
  const pixels = new Uint8ClampedArray(4 * width * height);
  for (let y = 0; y < height; y++) {
    const row = Math.floor(y / finer) * picture.width;
    for (let x = 0; x < width; x++) {
      const from = row + Math.floor(x / finer);
      const to = 4 * (y * width + x);
      const kind = picture.clipped[from];
      const rgb = kind === 0 ? null : kind === 2 ? stripes(x, y) : dots(x, y);
      for (let c = 0; c < 3; c++) pixels[to + c] = rgb === null ? (toned[4 * from + c] as number) : rgb[c];
      pixels[to + 3] = 255;
    }
  }
  return { width, height, pixels };
}

const stripes = (x: number, y: number) => ((x + y) % PERIOD < PERIOD / 2 ? STRIPE : WHITE);
const dots = (x: number, y: number) => (x % PERIOD < 2 && y % PERIOD < 2 ? DOT : WHITE);

function zoned({ tenths, clipped }: FramePicture): Uint8ClampedArray {
  const out = new Uint8ClampedArray(4 * tenths.length).fill(255);
  for (let i = 0; i < tenths.length; i++) {
    if (clipped[i] !== 0) continue;
    const { rgb } = ZONES[zoneOf(tenths[i] as number)] as (typeof ZONES)[number];
    for (let c = 0; c < 3; c++) out[4 * i + c] = rgb[c] as number;
  }
  return out;
}

function toneless({ rgba }: FramePicture, { mono }: FrameLook): Uint8ClampedArray {
  const table = new ToneTable(mono, 255);
  const out = new Uint8ClampedArray(rgba.length).fill(255);
  for (let i = 0; i < rgba.length; i += 4) {
    const tone = table.of(rgba[i] as number, rgba[i + 1] as number, rgba[i + 2] as number);
    out[i] = out[i + 1] = out[i + 2] = tone;
  }
  return out;
}

/** Shares of the picture that clip. */
export function clippedShares({ clipped }: FramePicture): { skin: number; elsewhere: number } {
  let skin = 0;
  let elsewhere = 0;
  for (const kind of clipped) {
    if (kind === 2) skin++;
    else if (kind === 1) elsewhere++;
  }
  return { skin: skin / clipped.length, elsewhere: elsewhere / clipped.length };
}
