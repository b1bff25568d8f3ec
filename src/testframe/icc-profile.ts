/** An embedded ICC profile of the kind that is curves and a matrix, as cameras and editors write them. */
import {
  ADOBE_RGB,
  apply,
  type ColourSpace,
  type Curve,
  D50_XYZ,
  DISPLAY_P3,
  multiply,
  powerCurve,
  SRGB,
  srgbFromD50,
} from "./icc-space.ts";
import { plainText } from "./plain-text.ts";

/** "tables": a profile of another kind, for a whole colour engine. "broken": it cannot be what it says. */
export type ReadProfile =
  | { readonly kind: "matrix"; readonly space: ColourSpace; readonly isGrey: boolean }
  | { readonly kind: "tables"; readonly name: string }
  | { readonly kind: "broken"; readonly why: string };

/** Longest profile that is looked at; real ones of the matrix kind are under 4 kB, printers' tables under 4 MB. */
const LONGEST = 16 * 1024 * 1024;
const MOST_TAGS = 100;
/** Points of a curve; 4096 is the most seen in practice. */
const MOST_POINTS = 65536;
/** How far white may be from the standard's: profiles are rounded, some are of a slightly other white. */
const WHITE_TOLERANCE = 0.05;

/** Reads nothing beyond the bytes, allocates no more than a curve's points. Source: ICC.1:2022 */
export function readProfile(bytes: Uint8Array): ReadProfile {
  try {
    return new Profile(bytes).read();
  } catch (error) {
    if (error instanceof BrokenProfile) return { kind: "broken", why: error.message };
    throw error;
  }
}

class BrokenProfile extends Error {}

class Profile {
  readonly #view: DataView;
  readonly #tags = new Map<string, { at: number; size: number }>();

  constructor(bytes: Uint8Array) {
    if (bytes.length < 132 || bytes.length > LONGEST) throw new BrokenProfile(`it has ${bytes.length} bytes`);
    this.#view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
    if (this.#text(36, 4) !== "acsp") throw new BrokenProfile("its signature is missing");
    const count = this.#view.getUint32(128);
    if (count > MOST_TAGS) throw new BrokenProfile(`it claims ${count} parts`);
    for (let i = 0; i < count; i++) {
      const entry = 132 + 12 * i;
      if (entry + 12 > bytes.length) throw new BrokenProfile("its list of parts is cut off");
      const [at, size] = [this.#view.getUint32(entry + 4), this.#view.getUint32(entry + 8)];
      if (size >= 8 && at + size <= bytes.length) this.#tags.set(this.#text(entry, 4), { at, size });
    }
  }

  read(): ReadProfile {
    const kind = this.#text(16, 4);
    const name = this.#name();
    const isXyz = this.#text(20, 4) === "XYZ ";
    if (kind === "GRAY" && this.#tags.has("kTRC")) {
      const curve = this.#curve("kTRC");
      const neutral = { name, curves: [curve, curve, curve] as const, toSrgb: [1, 0, 0, 0, 1, 0, 0, 0, 1] };
      return { kind: "matrix", space: neutral, isGrey: true };
    }
    const isMatrix = ["rXYZ", "gXYZ", "bXYZ", "rTRC", "gTRC", "bTRC"].every((tag) => this.#tags.has(tag));
    if (kind !== "RGB " || !isXyz || !isMatrix || this.#tags.has("A2B0")) return { kind: "tables", name };
    const columns = ["rXYZ", "gXYZ", "bXYZ"].map((tag) => this.#xyz(tag));
    const toD50 = [0, 1, 2].flatMap((row) => columns.map((column) => column[row]));
    const white = apply(toD50, [1, 1, 1]);
    // beyond that its neutrals are not neutral
    if (!white.every((value, i) => Math.abs(value - D50_XYZ[i]) < WHITE_TOLERANCE))
      throw new BrokenProfile(`its white is ${white.map((value) => value.toFixed(3)).join(", ")}`);
    const curves = [this.#curve("rTRC"), this.#curve("gTRC"), this.#curve("bTRC")] as const;
    const shared = this.#sameCurves() ? ([curves[0], curves[0], curves[0]] as const) : curves;
    const space = known({ name, curves: shared, toSrgb: multiply(srgbFromD50(), toD50) });
    return { kind: "matrix", space, isGrey: false };
  }

  #text(at: number, length: number): string {
    let text = "";
    for (let i = 0; i < length; i++) text += String.fromCharCode(this.#view.getUint8(at + i));
    return text;
  }

  #tag(tag: string) {
    const found = this.#tags.get(tag);
    if (!found) throw new BrokenProfile(`${tag.trim()} is missing`);
    return found;
  }

  #fixed(at: number): number {
    return this.#view.getInt32(at) / 65536;
  }

  #xyz(tag: string): number[] {
    const { at, size } = this.#tag(tag);
    if (size < 20 || this.#text(at, 4) !== "XYZ ") throw new BrokenProfile(`${tag} is no colour`);
    return [this.#fixed(at + 8), this.#fixed(at + 12), this.#fixed(at + 16)];
  }

  /** Red, green and blue share one tag's bytes, as most profiles have it. */
  #sameCurves(): boolean {
    const places = ["rTRC", "gTRC", "bTRC"].map((tag) => this.#tag(tag).at);
    return places[0] === places[1] && places[1] === places[2];
  }

  /** Full levels are white, so a curve ends at one: one of noughts would make every picture black. */
  #curve(tag: string): Curve {
    const curve = this.#anyCurve(tag);
    const top = curve(1);
    if (!(Math.abs(top - 1) < WHITE_TOLERANCE))
      throw new BrokenProfile(`${tag} ends at ${top.toFixed(3)}, not at 1`);
    return curve;
  }

  #anyCurve(tag: string): Curve {
    const { at, size } = this.#tag(tag);
    const kind = this.#text(at, 4);
    if (kind === "curv" && size >= 12) {
      const count = this.#view.getUint32(at + 8);
      if (count > MOST_POINTS || 12 + 2 * count > size) throw new BrokenProfile(`${tag} is cut off`);
      if (count === 0) return powerCurve(1);
      if (count === 1) return powerCurve(this.#view.getUint16(at + 12) / 256);
      const points = Float64Array.from(
        { length: count },
        (_, i) => this.#view.getUint16(at + 12 + 2 * i) / 65535,
      );
      return throughPoints(points);
    }
    if (kind === "para" && size >= 16) {
      const form = this.#view.getUint16(at + 8);
      const needed = [1, 3, 4, 5, 7][form];
      if (!needed || size < 12 + 4 * needed) throw new BrokenProfile(`${tag} has no known form`);
      const values = Array.from({ length: needed }, (_, i) => this.#fixed(at + 12 + 4 * i));
      return parametric(form, values);
    }
    throw new BrokenProfile(`${tag} is no curve`);
  }

  /** Text of "desc": ASCII before version 4, UTF-16 in several languages since. */
  #name(): string {
    const tag = this.#tags.get("desc");
    let text = "";
    if (tag && this.#text(tag.at, 4) === "desc" && tag.size > 12) {
      const length = Math.min(this.#view.getUint32(tag.at + 8), tag.size - 12, 80);
      text = this.#text(tag.at + 12, length);
    } else if (tag && this.#text(tag.at, 4) === "mluc" && tag.size >= 28) {
      const [length, offset] = [this.#view.getUint32(tag.at + 20), this.#view.getUint32(tag.at + 24)];
      for (let i = 0; i + 1 < Math.min(length, 160) && offset + i + 1 < tag.size; i += 2)
        text += String.fromCharCode(this.#view.getUint16(tag.at + offset + i));
    }
    return plainText(text) || "a profile without a name";
  }
}

/** The usual spaces come in profiles of many names: they are known by what they do. */
function known(space: ColourSpace): ColourSpace {
  const isLike = (other: ColourSpace) =>
    other.toSrgb.every((value, i) => Math.abs(value - space.toSrgb[i]) < 0.004) &&
    [0.1, 0.3, 0.5, 0.8].every((x) =>
      space.curves.every((curve, i) => Math.abs(curve(x) - other.curves[i](x)) < 0.001),
    );
  const name = [SRGB, DISPLAY_P3, ADOBE_RGB].find(isLike)?.name ?? space.name;
  return { ...space, name };
}

function throughPoints(points: Float64Array): Curve {
  const last = points.length - 1;
  return (encoded) => {
    const place = Math.min(1, Math.max(0, encoded)) * last;
    const i = Math.min(last - 1, Math.floor(place));
    return points[i] + (points[i + 1] - points[i]) * (place - i);
  };
}

/** ICC.1:2022, table 68: forms 0 to 4. */
function parametric(form: number, [g, a = 1, b = 0, c = 0, d = 0, e = 0, f = 0]: number[]): Curve {
  const power = (x: number) => Math.max(0, a * x + b) ** g;
  const curve: Curve = (x) => {
    if (form === 0) return x ** g;
    if (form === 1) return x >= -b / a ? power(x) : 0;
    if (form === 2) return x >= -b / a ? power(x) + c : c;
    if (form === 3) return x >= d ? power(x) : c * x;
    return x >= d ? power(x) + e : c * x + f;
  };
  if (![0, 0.25, 0.5, 1].every((x) => Number.isFinite(curve(x))))
    throw new BrokenProfile("a curve has no value");
  return curve;
}
