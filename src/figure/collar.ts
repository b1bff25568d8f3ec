/** Where clothes end at the neck: a slanting plane and a rounded neckband round the skin. Body axes, metres. */
import { neckField } from "./cranium.ts";
import { inwardHit } from "./fields.ts";
import type { Point } from "./measures.ts";
import { ringOver } from "./solids.ts";
import { MATERIAL, type Mesh } from "./types.ts";

const CENTIMETRES = 100;
/** Slope of the plane as a unit vector ahead and up, and its height over the ears' level along that: the band lies
 * 142 mm under the ears in front, 108 mm behind. */
export const COLLAR_NORMAL = [0.272, 0.962] as const;
export const COLLAR_LEVEL = -0.1271;

/** Distance from the neck's skin. */
export function overNeck(x: number, y: number, z: number, ears: number): number {
  return neckField(x * CENTIMETRES, y * CENTIMETRES, (z - ears) * CENTIMETRES) / CENTIMETRES;
}

/** Distance over the plane in which clothes end. */
export function overBand(x: number, z: number, ears: number): number {
  return COLLAR_NORMAL[0] * x + COLLAR_NORMAL[1] * (z - ears) - COLLAR_LEVEL;
}

/** The band's middle under the plane and off the skin, its half-width along the neck and across. */
const UNDER = 0.005;
const OFF = 0.0052;
const TALL = 0.012;
const THICK = 0.006;
const AROUND = 64;
const SECTION = 10;
const NECK_AHEAD = -0.027;

export function neckband(ears: number): Mesh {
  const up = (COLLAR_LEVEL - UNDER - COLLAR_NORMAL[0] * NECK_AHEAD) / COLLAR_NORMAL[1];
  const neck = (x: number, y: number, z: number) => overNeck(x, y, z, 0);
  const loops = Array.from({ length: AROUND }, (_, i) => {
    const turn = (2 * Math.PI * i) / AROUND;
    const [c, s] = [Math.cos(turn), Math.sin(turn)];
    const out = [c * COLLAR_NORMAL[1], s, -c * COLLAR_NORMAL[0]];
    const t = OFF + inwardHit(neck, [NECK_AHEAD, 0, up], out, 0, 0.12);
    return Array.from({ length: SECTION }, (_, j): Point => {
      const way = (2 * Math.PI * j) / SECTION;
      const across = t + THICK * Math.cos(way);
      const along = TALL * Math.sin(way);
      return [
        NECK_AHEAD + across * out[0] + along * COLLAR_NORMAL[0],
        across * out[1],
        ears + up + across * out[2] + along * COLLAR_NORMAL[1],
      ];
    });
  });
  return ringOver(loops, MATERIAL.clothing);
}
