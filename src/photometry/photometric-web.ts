/** A photometric file as a table over the whole circle: what to look up and what it adds up to. */
import type { PhotometricFile } from "./lm63.ts";
import { fullCircle } from "./lm63-angles.ts";

const DEGREE = Math.PI / 180;

/** Intensities over all directions, or over the half-space in front. */
export interface PhotometricWeb {
  readonly vertical_rad: Float64Array;
  /** 0 to 2 pi, both included; one alone where the light is the same all round */
  readonly horizontal_rad: Float64Array;
  /** cd; vertical.length numbers for each horizontal angle in turn */
  readonly candela: Float64Array;
}

/** `frontOnly` cuts the table at 90 degrees: what a face with a dark back sends. */
export function photometricWeb(file: PhotometricFile, frontOnly: boolean): PhotometricWeb {
  const { angles_deg, columns } = fullCircle(file.horizontal_deg);
  const rows = file.vertical_deg.length;
  const kept = Array.from(file.vertical_deg).filter((v) => !frontOnly || v <= 90);
  const cut = frontOnly && kept.length > 0 && kept[kept.length - 1] < 90;
  const vertical = cut ? [...kept, 90] : kept;
  const candela: number[] = [];
  for (const column of columns) {
    const below = Math.floor(column);
    const share = column - below;
    const at = (i: number) => {
      const cd = file.candela[below * rows + i];
      return share === 0 ? cd : cd + share * (file.candela[(below + 1) * rows + i] - cd);
    };
    for (let i = 0; i < kept.length; i++) candela.push(at(i));
    if (cut) {
      // between the last angle in front and the first behind
      const i = kept.length - 1;
      const [a, b] = [file.vertical_deg[i], file.vertical_deg[i + 1]];
      candela.push(at(i) + ((90 - a) / (b - a)) * (at(i + 1) - at(i)));
    }
  }
  return {
    vertical_rad: Float64Array.from(vertical, (v) => v * DEGREE),
    horizontal_rad: Float64Array.from(angles_deg, (h) => h * DEGREE),
    candela: Float64Array.from(candela),
  };
}

/** Luminous flux of a web.
 * Units   cd -> lm
 * Accuracy exact for intensities linear in both angles between the table's
 * Source  integral of (a + b v) sin v dv in closed form, trapezium round the axis */
export function webFlux(web: PhotometricWeb): number {
  const { vertical_rad: v, horizontal_rad: h, candela } = web;
  const planes = h.length;
  const zone = (plane: number) => {
    let sum = 0;
    for (let i = 0; i + 1 < v.length; i++) {
      const [a, b] = [candela[plane * v.length + i], candela[plane * v.length + i + 1]];
      const slope = (b - a) / (v[i + 1] - v[i]);
      sum += a * Math.cos(v[i]) - b * Math.cos(v[i + 1]) + slope * (Math.sin(v[i + 1]) - Math.sin(v[i]));
    }
    return sum;
  };
  if (planes === 1) return 2 * Math.PI * zone(0);
  let flux = 0;
  for (let j = 0; j + 1 < planes; j++) flux += ((h[j + 1] - h[j]) * (zone(j) + zone(j + 1))) / 2;
  return flux;
}

/** Whether anything goes into the half-space in front. */
export function sendsForward(file: PhotometricFile): boolean {
  const v = file.vertical_deg;
  return file.candela.some((cd, at) => {
    const i = at % v.length;
    // what stands at or behind 90 degrees reaches forward only through a step that begins before
    return cd > 0 && (v[i] < 90 || (i > 0 && v[i - 1] < 90));
  });
}
