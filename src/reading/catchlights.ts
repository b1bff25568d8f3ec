/** Where the camera sees lights, panels and walls mirrored in somebody's eyes. */

import { TILE_BITS } from "../engine/index.ts";
import { MATERIAL } from "../figure/index.ts";
import { luminanceAt } from "../photometry/index.ts";
import type { Viewfinder } from "./camera-rays.ts";
import { type EyeSeen, glanceAtEye, traceEye } from "./catchlight-trace.ts";
import type { Mirrored } from "./catchlight-walls.ts";
import { type Cornea, corneaOf } from "./cornea.ts";
import { sizeOf } from "./cornea-polygons.ts";
import type { Lighting } from "./lighting.ts";
import type { Catchlight } from "./types.ts";

/** Width of the frame, in pixels, that catchlights are measured in: 24 megapixels held upright. */
export const CATCHLIGHT_FRAME_WIDTH = 4000;

/** A reflection shows where so much of it is seen. */
const NOTICEABLE_SHARE = 0.05;
/** and a wall where it covers so much of the iris. */
const NOTICEABLE_COVER = 0.02;
/** and where it lightens the iris by a tenth of a stop, the finest step that lights are set in. */
export const NOTICEABLE_GAIN = 2 ** 0.1 - 1;

const DEGREES_PER_HOUR = 30;

/** Every light that is on and turned to the eye, seen or not; panels and walls where they show.
 * Units   millimetres square to the line of sight; hours; iris radii
 * Accuracy outlines by the law of reflection: 2 % of the mirror formula up to 11 degrees off the camera's axis, 0.5 % of
 *         brute force beyond, reference/section10-catchlights.checks.ts; walls' middles to a step of the grid
 * Source  docs/spec/catchlights.md */
export function readCatchlights(lighting: Lighting, person: number, view: Viewfinder): Catchlight[] {
  return EYES.flatMap((eye) => {
    const { cornea, seen } = eyeOf(lighting, person, eye, view);
    return catchlightsIn(lighting, person, eye, cornea, seen, view);
  });
}

export const EYES = ["left", "right"] as const;

/** Of what has been traced of one eye. */
export function catchlightsIn(
  lighting: Lighting,
  person: number,
  eye: Catchlight["eye"],
  cornea: Cornea,
  seen: EyeSeen,
  view: Viewfinder,
): Catchlight[] {
  const out: Catchlight[] = [];
  const ahead = depthOf(cornea, view) > 0;
  const least = NOTICEABLE_GAIN * irisLuminance(lighting, person, seen);
  for (const m of seen.mirrored) {
    const on = m.light < 0 || lighting.stage.lights[m.light].on;
    if (!on) continue;
    const wide = m.kind !== "wall" || m.cover >= NOTICEABLE_COVER;
    const bright = luminanceOf(lighting, m);
    const visible = ahead && m.share >= NOTICEABLE_SHARE && wide && bright > 0 && bright >= least;
    if (visible || m.kind === "light") out.push(written(eye, m, nameOf(lighting, m), visible, cornea, view));
  }
  return out;
}

/** Luminance x time of an iris itself, lit as it is, cd.s/m2. */
export function irisLuminanceOf(
  lighting: Lighting,
  person: number,
  eye: Catchlight["eye"],
  view: Viewfinder,
): number {
  return irisLuminance(lighting, person, eyeOf(lighting, person, eye, view).seen);
}

/** What has been traced of one eye. */
function eyeOf(
  lighting: Lighting,
  person: number,
  eye: Catchlight["eye"],
  view: Viewfinder,
): { cornea: Cornea; seen: EyeSeen } {
  const staged = lighting.stage.people[person];
  const { leftEye, rightEye } = staged.shape.head;
  const cornea = corneaOf(staged, eye === "left" ? leftEye : rightEye, view);
  const key = lighting.lightKey + JSON.stringify(view);
  const seen = lighting.memory.recall(`${eye} eye ${person}`, key, () =>
    lighting.effort === "glance"
      ? glanceAtEye(lighting, cornea, `${eye} eye ${person}`)
      : traceEye(lighting, cornea),
  );
  return { cornea, seen };
}

function written(
  eye: Catchlight["eye"],
  m: Mirrored,
  name: string,
  visible: boolean,
  cornea: Cornea,
  view: Viewfinder,
): Catchlight {
  const hours = (Math.atan2(m.middle[0], m.middle[1]) * 180) / Math.PI / DEGREES_PER_HOUR;
  const [across, upward] = sizeOf(m.onCornea).map((s) => s * cornea.irisRadius);
  const deep = depthOf(cornea, view);
  const pixels = deep > 0 ? CATCHLIGHT_FRAME_WIDTH / (2 * view.tanX * deep) : 0;
  const outline = visible && m.outline.length > 0 ? m.outline : m.onCornea;
  return {
    eye,
    light: name,
    kind: m.kind,
    clock: hours <= 0 ? hours + 12 : hours,
    visible,
    widthMillimetres: 1000 * across,
    heightMillimetres: 1000 * upward,
    widthPixels: pixels * across,
    heightPixels: pixels * upward,
    outline: outline.map(([x, y]) => [rounded(x), rounded(y)]),
  };
}

function nameOf({ stage }: Lighting, { light, panel, wall }: Mirrored): string {
  if (light >= 0) return stage.lights[light].name;
  return panel >= 0 ? stage.plan.panels[panel].name : wall;
}

/** How far before the camera an iris lies, along its axis; behind it the camera sees nothing. */
function depthOf(cornea: Cornea, view: Viewfinder): number {
  return cornea.iris.reduce((sum, p, k) => sum + (p - view.position[k]) * view.forward[k], 0);
}

/** A ten-thousandth of an iris radius is about a wavelength of light. */
function rounded(x: number): number {
  return Math.round(x * 1e4) / 1e4;
}

/** Luminance x time of a reflection, the mean over what shows, cd.s/m2. */
export function luminanceOf(lighting: Lighting, m: Pick<Mirrored, "light" | "perLumen" | "tiles">): number {
  const { lights } = lighting.stage;
  if (m.light >= 0) {
    const light = lights[m.light];
    // a bare point: any power shows, none does not
    if (!(light.lumenSeconds > 0 && m.perLumen > 0)) return 0;
    return m.perLumen * light.lumenSeconds * light.meterWeights.reduce((a, b) => a + b, 0);
  }
  let sum = 0;
  for (const [tile, share] of m.tiles) sum += (share * exitanceOf(lighting, tile)) / Math.PI;
  return sum;
}

/** Light that a tile sends back or lets through, of all lights that are on and the ambient: lm.s/m2. */
function exitanceOf({ stage, exitance }: Lighting, tile: number): number {
  let sum = 0;
  stage.lights.forEach((light, l) => {
    if (!light.on) return;
    const { bounced, through } = exitance[l];
    for (let c = 0; c < 3; c++)
      sum += light.lumenSeconds * light.meterWeights[c] * (bounced[3 * tile + c] + through[tile]);
  });
  if (!(stage.ambient > 0)) return sum;
  return sum + stage.ambient * luminanceAt(stage.scene.patches.reflectance, 3 * (tile >> TILE_BITS));
}

/** Luminance x time of the iris itself, cd.s/m2. */
function irisLuminance({ stage, exitance }: Lighting, person: number, seen: EyeSeen): number {
  const mesh = stage.owners.findIndex((o) => o.kind === "head" && o.person === person);
  const iris = stage.looks[mesh]?.[MATERIAL.iris] ?? [0, 0, 0];
  let sum = stage.ambient * luminanceAt(iris);
  stage.lights.forEach((light, l) => {
    if (!light.on) return;
    for (let c = 0; c < 3; c++) {
      const bounced = seen.irisTile < 0 ? 0 : exitance[l].arriving[3 * (seen.irisTile >> TILE_BITS) + c];
      sum += light.lumenSeconds * light.meterWeights[c] * iris[c] * (seen.irisDirect[l] + bounced);
    }
  });
  return sum / Math.PI;
}
