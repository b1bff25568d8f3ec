/** Numbers that know their unit, for the compiler alone: nothing is stored, nothing is slower.
 *
 * Two kinds are confused most: lux with lux-seconds, and stops with ratios. A parameter declared `Given<LuxSeconds>`
 * takes a plain number, as kernels use, and takes lux-seconds; it refuses lux. Sums of branded numbers are plain
 * numbers again, so that arithmetic in a kernel stays arithmetic. */

declare const unit: unique symbol;

export type Quantity<U extends string> = number & { readonly [unit]: U };

/** What a parameter takes: this quantity or a plain number, never another quantity. */
export type Given<Q extends Quantity<string>> = Q | (number & { readonly [unit]?: never });

/** illuminance */
export type Lux = Quantity<"lx">;
/** luminous exposure, what a flash meter integrates */
export type LuxSeconds = Quantity<"lx.s">;
/** luminous energy */
export type LumenSeconds = Quantity<"lm.s">;
/** intensity x time */
export type CandelaSeconds = Quantity<"cd.s">;
/** luminance x time */
export type LuminanceSeconds = Quantity<"cd.s/m2">;
/** luminance */
export type Luminance = Quantity<"cd/m2">;
export type Seconds = Quantity<"s">;
/** a difference on the scale of doublings */
export type Stops = Quantity<"stop">;
/** a linear ratio */
export type Ratio = Quantity<"1">;
