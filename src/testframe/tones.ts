/** How bright a whole file is and how near to clipping, at its full resolution, in its own channels. */
import { LUMINANCE } from "../photometry/index.ts";
import type { FilePixels } from "./tones-pixels.ts";
import type { ChannelShares, Tones } from "./types.ts";

/** Near is within a third of a stop: the smallest step that a camera's dials have. */
const NEAR = 2 ** (-1 / 3);
const BINS = 120;
/** Darkest that is told, stops under clipping: where the histogram ends. */
const DARKEST_STOPS = 12;
const PERCENTILE = 0.995;
/** Luminance as a whole number, so that a sum of three fits 32 bits and its logarithm is a table's. */
const UNIT = 1 << 28;
/** Bits under the highest that choose among the table's bins: the edge between two is right within 0.0004 stop. */
const FINE_BITS = 12;

const CLIPPED = 1;
const IS_NEAR = 2;

/** One pass over all pixels; nothing is allocated a pixel. */
export function measureTones(pixels: FilePixels): Tones {
  const { data, channels } = pixels;
  const levels = pixels.linear[0].length;
  const counts = [0, 1, 2].map(() => new Uint32Array(levels));
  const flags = pixels.linear.map((table) => levelFlags(table, pixels.clipLevel));
  const [lightR, lightG, lightB] = luminanceTables(pixels);
  bins ??= binTable();
  const table = bins;
  const histogram = new Uint32Array(BINS);
  const flagged = new Uint32Array(4);
  const [countR, countG, countB] = counts;
  const [flagR, flagG, flagB] = flags;
  const second = channels === 3 ? 1 : 0;
  const third = channels === 3 ? 2 : 0;
  for (let at = 0; at < data.length; at += channels) {
    const r = data[at];
    const g = data[at + second];
    const b = data[at + third];
    countR[r]++;
    countG[g]++;
    countB[b]++;
    flagged[flagR[r] | flagG[g] | flagB[b]]++;
    histogram[table[binPlace(lightR[r] + lightG[g] + lightB[b])]]++;
  }
  const total = data.length / channels;
  const share = (bit: number): ChannelShares => {
    const of = (channel: number) => sumWhere(counts[channel], flags[channel], bit) / total;
    const any = flagged.reduce((sum, count, flag) => (flag & bit ? sum + count : sum), 0);
    return { red: of(0), green: of(1), blue: of(2), any: any / total };
  };
  const headroom = (channel: number) =>
    headroomStops(counts[channel], pixels.linear[channel], pixels.clipLevel, total);
  return {
    clipped: share(CLIPPED),
    near: share(IS_NEAR),
    headroomStops: { red: headroom(0), green: headroom(1), blue: headroom(2) },
    histogram: Array.from(histogram, (count) => count / total),
  };
}

/** Clipped ones are near as well. */
function levelFlags(linear: Float64Array, clipLevel: number): Uint8Array {
  const top = linear[linear.length - 1];
  const flags = new Uint8Array(linear.length);
  for (let level = 0; level < flags.length; level++)
    if (level >= clipLevel) flags[level] = CLIPPED | IS_NEAR;
    else if (linear[level] >= NEAR * top) flags[level] = IS_NEAR;
  return flags;
}

function sumWhere(counts: Uint32Array, flags: Uint8Array, bit: number): number {
  let sum = 0;
  for (let level = 0; level < counts.length; level++) if (flags[level] & bit) sum += counts[level];
  return sum;
}

/** Each channel's part of the luminance, by its level. A part below nothing (primaries beyond sight) counts as none. */
function luminanceTables({ linear, space, channels }: FilePixels): Int32Array[] {
  const m = space.toSrgb;
  const weights = [0, 1, 2].map((channel) =>
    Math.max(0, LUMINANCE[0] * m[channel] + LUMINANCE[1] * m[channel + 3] + LUMINANCE[2] * m[channel + 6]),
  );
  const all = weights[0] + weights[1] + weights[2];
  return linear.map((table, channel) => {
    const weight = channels === 1 ? (channel === 0 ? 1 : 0) : weights[channel] / all;
    const parts = new Int32Array(table.length);
    for (let level = 0; level < parts.length; level++)
      parts[level] = Math.round(table[level] * weight * UNIT);
    return parts;
  });
}

/** A luminance's place in the table: how many noughts lead it, then its next bits. */
function binPlace(light: number): number {
  const noughts = Math.clz32(light);
  return (noughts << FINE_BITS) | (((light << noughts) >>> (31 - FINE_BITS)) & ((1 << FINE_BITS) - 1));
}

let bins: Uint8Array | null = null;

function binTable(): Uint8Array {
  const table = new Uint8Array(33 << FINE_BITS).fill(BINS - 1);
  for (let noughts = 0; noughts < 32; noughts++)
    for (let fine = 0; fine < 1 << FINE_BITS; fine++) {
      const mantissa = 1 + (fine + 0.5) / (1 << FINE_BITS);
      const stopsUnder = -Math.log2((mantissa * 2 ** (31 - noughts)) / UNIT);
      table[(noughts << FINE_BITS) | fine] = Math.min(BINS - 1, Math.max(0, Math.floor(stopsUnder * 10)));
    }
  return table;
}

function headroomStops(counts: Uint32Array, linear: Float64Array, clipLevel: number, total: number): number {
  let level = 0;
  for (let sum = counts[0]; sum < PERCENTILE * total && level < counts.length - 1; ) sum += counts[++level];
  if (level >= clipLevel) return 0;
  return Math.min(DARKEST_STOPS, Math.max(0, Math.log2(linear[linear.length - 1] / linear[level])));
}
