/** The one source of chance: seeded, so that the same seed gives the same draws everywhere. */

/** 6364136223846793005, the multiplier, as two halves of 32 bits. */
const MULTIPLIER_HIGH = 0x5851f42d;
const MULTIPLIER_LOW = 0x4c957f2d;

/** High 32 bits of the product of two unsigned 32-bit numbers. */
function multiplyHigh(a: number, b: number): number {
  const a0 = a & 0xffff;
  const a1 = a >>> 16;
  const b0 = b & 0xffff;
  const b1 = b >>> 16;
  const middle = a1 * b0 + ((a0 * b0) >>> 16);
  const other = a0 * b1 + (middle & 0xffff);
  return (a1 * b1 + Math.floor(middle / 65536) + Math.floor(other / 65536)) >>> 0;
}

/** pcg32 (XSH RR 64/32). Streams of one seed never meet; give each purpose its own.
 * Domain  seed and stream whole numbers from 0 to 2^32 - 1
 * Accuracy known answers of the reference implementation; pcg32.test.ts
 * Source  O'Neill 2014, HMC-CS-2014-0905 */
export class Pcg32 {
  private high = 0;
  private low = 0;
  private readonly stepHigh: number;
  private readonly stepLow: number;

  constructor(seed: number, stream = 0) {
    this.stepHigh = stream >>> 31;
    this.stepLow = ((stream << 1) | 1) >>> 0;
    this.advance();
    this.add(0, seed >>> 0);
    this.advance();
  }

  /** A whole number from 0 to 2^32 - 1. */
  nextUint32(): number {
    const { high, low } = this;
    this.advance();
    // ((state >> 18) ^ state) >> 27, its low 32 bits
    const mixedHigh = (high ^ (high >>> 18)) >>> 0;
    const mixedLow = (low ^ ((low >>> 18) | (high << 14))) >>> 0;
    const word = ((mixedLow >>> 27) | (mixedHigh << 5)) >>> 0;
    const turn = high >>> 27;
    return ((word >>> turn) | (word << (-turn & 31))) >>> 0;
  }

  /** From 0 up to, not including, 1. */
  next(): number {
    return this.nextUint32() / 2 ** 32;
  }

  private advance(): void {
    const { high, low } = this;
    const productLow = Math.imul(low, MULTIPLIER_LOW) >>> 0;
    const productHigh =
      (multiplyHigh(low, MULTIPLIER_LOW) +
        Math.imul(low, MULTIPLIER_HIGH) +
        Math.imul(high, MULTIPLIER_LOW)) >>>
      0;
    this.high = productHigh;
    this.low = productLow;
    this.add(this.stepHigh, this.stepLow);
  }

  private add(high: number, low: number): void {
    const sum = this.low + low;
    this.low = sum >>> 0;
    this.high = (this.high + high + (sum >= 2 ** 32 ? 1 : 0)) >>> 0;
  }
}
