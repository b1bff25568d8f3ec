/** What a PNG file says of its colours beside an ICC profile. Source: PNG third edition (W3C), 4.3 and 11.3.2. */
import type { Chromaticity } from "../photometry/index.ts";
import {
  type ColourSpace,
  DISPLAY_P3,
  LINEAR_SRGB,
  P3_PRIMARIES,
  type Primaries,
  plainCurve,
  powerCurve,
  SRGB,
  SRGB_PRIMARIES,
  spaceOf,
} from "../testframe/index.ts";

/** As many chunks as are looked at before the picture begins. */
const MOST_CHUNKS = 1000;
const D65: Chromaticity = [0.3127, 0.329];

/** Null where it says nothing that is understood. The best of it wins: cICP, then sRGB, then gAMA with or without cHRM. */
export function pngSpace(bytes: Uint8Array): ColourSpace | null {
  const found = chunks(bytes);
  const coded = found.get("cICP");
  const known = coded && codedSpace(coded.getUint8(0), coded.getUint8(1));
  if (known) return known;
  if (found.has("sRGB")) return SRGB;
  const gamma = found.get("gAMA")?.getUint32(0);
  return gamma ? gammaSpace(gamma / 100000, found.get("cHRM")) : null;
}

function chunks(bytes: Uint8Array): Map<string, DataView> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  const wanted: Record<string, number> = { cICP: 4, sRGB: 1, gAMA: 4, cHRM: 32 };
  const found = new Map<string, DataView>();
  for (let at = 8, count = 0; at + 12 <= bytes.length && count < MOST_CHUNKS; count++) {
    const length = view.getUint32(at);
    const kind = String.fromCharCode(...bytes.subarray(at + 4, at + 8));
    if (kind === "IDAT") break;
    if (wanted[kind] === length && at + 12 + length <= bytes.length)
      found.set(kind, new DataView(bytes.buffer, bytes.byteOffset + at + 8, length));
    at += 12 + length;
  }
  return found;
}

/** Code points of ITU-T H.273 that still pictures come in; high dynamic range is not among them. */
function codedSpace(primaries: number, transfer: number): ColourSpace | null {
  const places = { 1: SRGB_PRIMARIES, 12: P3_PRIMARIES }[primaries];
  if (!places) return null;
  if (transfer === 13) return primaries === 12 ? DISPLAY_P3 : SRGB;
  if (transfer === 8) return spaceOf("linear", places, plainCurve);
  return null;
}

/** An exponent of 1/2.2 is what writers put for sRGB before there was a chunk for it. */
function gammaSpace(exponent: number, chrm: DataView | undefined): ColourSpace | null {
  if (!(exponent > 0.1 && exponent < 4)) return null;
  const [white, ...primaries] = chrm ? chromaticities(chrm) : [D65, ...SRGB_PRIMARIES];
  const isSrgb = primaries.every((place, i) => near(place, SRGB_PRIMARIES[i]));
  if (isSrgb && Math.abs(exponent - 1 / 2.2) < 0.002) return SRGB;
  if (isSrgb && Math.abs(exponent - 1) < 0.002) return LINEAR_SRGB;
  const curve = Math.abs(exponent - 1) < 0.002 ? plainCurve : powerCurve(1 / exponent);
  const name = `gamma ${(1 / exponent).toFixed(2)}${isSrgb ? ", sRGB primaries" : ", its own primaries"}`;
  const space = spaceOf(name, primaries as unknown as Primaries, curve, white);
  return space.toSrgb.every((value) => Math.abs(value) < 10) ? space : null;
}

function chromaticities(view: DataView): Chromaticity[] {
  return [0, 1, 2, 3].map((i) => [view.getUint32(8 * i) / 100000, view.getUint32(8 * i + 4) / 100000]);
}

const near = (a: Chromaticity, b: Chromaticity) =>
  Math.abs(a[0] - b[0]) < 0.002 && Math.abs(a[1] - b[1]) < 0.002;
