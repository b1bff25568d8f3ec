/** Ways to enter what a head gives when nobody has its lumen-seconds: a guide number, or what a hand meter reads. */
import {
  axialExposure,
  exposureOfReading,
  guideNumber,
  intensityOfGuideNumber,
  METER_CONSTANT,
} from "../photometry/index.ts";
import type { Beam, Face } from "../plan/index.ts";
import type { CandelaSeconds } from "../units/index.ts";
import type { HeadFull, ShelfHead } from "./schema.ts";

/** A front as light leaves it: of a bare head, or of what is on it. */
export interface Front {
  readonly face: Face;
  readonly beam: Pick<Beam, "exponent" | "edgeDrop">;
}

/** What a hand meter reads of one flash, on the axis, facing the front. */
export interface HandReading {
  readonly fNumber: number;
  readonly iso: number;
  /** from the front's centre, m */
  readonly distance: number;
  readonly receptor: "flat" | "dome";
}

export interface EnteredPower {
  readonly full: HeadFull;
  /** what it comes to, in words */
  readonly says: string;
}

/** What a tube gives for a watt-second: outside of this something was read or typed wrong.
 * Source  30 to 40 lm/W is usual of xenon flash tubes (common practice, no source); twice that either way is odd */
const USUAL_LUMENS_PER_WATT = { least: 15, most: 80 };

/** Full power of a head whose guide number is known, stated for its own reflector.
 * Units   guide number in m -> lm.s that the tube gives
 * Domain  far from the head, as guide numbers are meant; the beam is the bare head's
 * Source  ISO 1230: GN = N d; I = C GN^2 / S with C = 250, published-checks section 4. The trade's own constant reads up to
 *         0.55 stop higher for the same light (same section), which is said
 * @example 40 m at ISO 100 through a perfect diffuser -> 4000 cd.s, 12566 lm.s */
export function powerOfGuideNumber(
  guideNumber_m: number,
  iso: number,
  bare: Front,
  wattSeconds: number | null,
): EnteredPower {
  const intensity = intensityOfGuideNumber(guideNumber_m, iso);
  return entered(
    intensity / peakShare(bare),
    wattSeconds,
    "; a stated guide number may read half a stop high",
  );
}

/** Full power of a head from a reading through a front that loses so much.
 * Units   stops lost: of all that the bare head sends out; stopsDown: how far the head was turned down then
 * Accuracy closed form on the axis, 1e-6; nothing but this flash must reach the meter */
export function powerOfReading(
  reading: HandReading,
  through: Front,
  stopsLost: number,
  stopsDown: number,
  wattSeconds: number | null,
): EnteredPower {
  return entered(energyOfReading(reading, through) * 2 ** (stopsLost + stopsDown), wattSeconds, "");
}

/** What a modifier loses, from two readings of the same flash: bare, and through it.
 * Units   stops of all that the bare head sends out, as `loss.stops`; below 0 where more seems to leave than went in
 * Domain  both readings on the axis, the head at the same power */
export function lossOfReadings(
  bare: { readonly front: Front; readonly reading: HandReading },
  through: { readonly front: Front; readonly reading: HandReading },
): number {
  return Math.log2(
    energyOfReading(bare.reading, bare.front) / energyOfReading(through.reading, through.front),
  );
}

/** lm.s that leave a front, from what a meter on its axis reads of it. */
function energyOfReading({ distance, fNumber, iso, receptor }: HandReading, { beam, face }: Front): number {
  const exposure = exposureOfReading(fNumber, iso, METER_CONSTANT[receptor]);
  return exposure / axialExposure(face, beam.exponent, beam.edgeDrop, distance, receptor);
}

/** Intensity on the axis of one lumen-second, far away, 1/sr. */
function peakShare({ beam }: Front): number {
  return (beam.exponent + 1) / (2 * Math.PI);
}

function entered(lumenSeconds: number, wattSeconds: number | null, more: string): EnteredPower {
  const lumens = `${Math.round(lumenSeconds)} lm·s at full power`;
  if (wattSeconds === null) return { full: { lumenSeconds }, says: `${lumens}${more}` };
  const lumensPerWatt = lumenSeconds / wattSeconds;
  const { least, most } = USUAL_LUMENS_PER_WATT;
  const isOdd = lumensPerWatt < least || lumensPerWatt > most;
  const odd = isOdd
    ? `; a flash tube gives 30 to 40, so look again at reading, distance, beam and watt-seconds`
    : "";
  return {
    full: { wattSeconds, lumensPerWatt },
    says: `${lumens}, ${lumensPerWatt.toFixed(1)} lm for each watt-second${more}${odd}`,
  };
}

/** lm.s that the tube of a head gives at full power. */
export function fullLumens(full: HeadFull): number {
  return "lumenSeconds" in full ? full.lumenSeconds : full.wattSeconds * full.lumensPerWatt;
}

/** The guide number of a bare head at full power, metres at this speed, as a flat receptor reads it. */
export function guideNumberOf({ bare, full }: Pick<ShelfHead, "bare" | "full">, iso: number): number {
  return guideNumber((fullLumens(full) * peakShare(bare)) as CandelaSeconds, iso, METER_CONSTANT.flat);
}

/** f-number that a flat receptor on the axis reads through a front, at full power. */
export function readingAt(
  full: HeadFull,
  through: Front,
  stopsLost: number,
  distance_m: number,
  iso: number,
): number {
  const { beam, face } = through;
  const share = axialExposure(face, beam.exponent, beam.edgeDrop, distance_m, "flat") * 2 ** -stopsLost;
  return Math.sqrt((fullLumens(full) * share * iso) / METER_CONSTANT.flat);
}
