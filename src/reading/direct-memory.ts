/** Direct light that has been traced, kept per light. When one light moves, the others are asked again only at those
 * receivers whose way to them its plate could have cut, or could cut now. */
import { platesBetween } from "../engine/index.ts";
import type { Stage } from "../staging/index.ts";
import type { Memory } from "./memory.ts";

/** What direct light depends on, by name. */
export interface DirectKeys {
  /** names everything but the lights */
  readonly stillKey: string;
  /** per light: its place, face and beam */
  readonly ownKeys: readonly string[];
  /** per light: its place and face, which is what it does to the others */
  readonly plateKeys: readonly string[];
}

export interface Receivers {
  /** tells these receivers from others in the same slot, beyond what `stillKey` tells */
  readonly name: string;
  readonly count: number;
  /** numbers kept per receiver */
  readonly width: number;
  /** where they are: xyz every `stride` numbers; `radii` of balls that hold receivers with a size */
  readonly points: ArrayLike<number>;
  readonly stride: number;
  readonly radii?: ArrayLike<number>;
  /** called once if anything is to be traced; gives what writes receiver i's numbers at width * i */
  readonly prepare: () => (i: number, out: Float64Array) => void;
  /** called after that, for what depends on neighbours as well; tells which were written anew. It must give the same
   * numbers whichever were */
  readonly finish?: (out: Float64Array, written: Uint8Array) => void;
}

interface Kept {
  readonly plates: readonly string[];
  readonly bits: Uint32Array;
  readonly values: Float64Array;
}

/** The numbers of all receivers for one light. */
export function recallDirect(
  memory: Memory,
  keys: DirectKeys,
  staged: Stage,
  light: number,
  slot: string,
  receivers: Receivers,
): Float64Array {
  const plates = keys.plateKeys.map((key, i) => (i === light ? "" : key));
  const box = memory.recall(`${slot} ${light}`, keys.stillKey + keys.ownKeys[light] + receivers.name, () => ({
    kept: null as Kept | null,
  }));
  const before = box.kept;
  const moved = before ? movedPlates(before.plates, plates) : -1;
  if (before && moved === 0) return before.values;
  const { count, width, points, stride, radii } = receivers;
  const { emitters } = staged.scene;
  const bits = new Uint32Array(count);
  const values =
    before && before.bits.length === count ? before.values.slice() : new Float64Array(count * width);
  const write = receivers.prepare();
  const written = new Uint8Array(count);
  for (let i = 0; i < count; i++) {
    const k = stride * i;
    bits[i] = platesBetween(emitters, light, points[k], points[k + 1], points[k + 2], radii?.[i] ?? 0);
    if (!before || before.bits.length !== count || ((bits[i] | before.bits[i]) & moved) !== 0) {
      write(i, values);
      written[i] = 1;
    }
  }
  receivers.finish?.(values, written);
  box.kept = { plates, bits, values };
  return values;
}

/** One bit a light whose plate differs, numbered as in platesBetween. */
function movedPlates(before: readonly string[], now: readonly string[]): number {
  let bits = 0;
  for (let i = 0; i < Math.max(before.length, now.length); i++)
    if (before[i] !== now[i]) bits |= 1 << (i & 31);
  return bits;
}
