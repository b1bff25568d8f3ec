/** Spectacle lenses in a picture: what each ray that passes one sees mirrored in its front. The view through is dimmed
 * by what is mirrored, but not bent, and light on its way to the eyes passes as if there were no lens. */
import { dot, subtract } from "../math/index.ts";
import { paneTransmittance } from "../photometry/index.ts";
import { project, type Viewfinder, writeCameraRay } from "./camera-rays.ts";
import { acrossOf, downOf, EXTRA, type FrameSamples } from "./frame-samples.ts";
import { isOnLens, type LensPlace, lensInWorld, type WorldLens, writeOnLens } from "./glasses-lens.ts";
import type { Lighting } from "./lighting.ts";

/** Spectacle lenses; plastics are 1.5 to 1.67. */
const LENS_INDEX = 1.5;
/** A coated lens mirrors an eighth of what a bare one does (plan format, coated). */
const COATED = 1 / 8;
/** Mirrored rays start this far off the lens, metres. */
const LIFT = 1e-4;
/** Rays a pixel, in rows and columns: the rim of a light on a lens is sharp. */
const ACROSS = { coarse: 1, fine: 2 } as const;

/** One ray on a lens: the sample it is part of, the share of it that is mirrored, and where to. */
export type Met = (
  sample: number,
  share: number,
  x: number,
  y: number,
  z: number,
  dx: number,
  dy: number,
  dz: number,
) => void;

export function lensesInView(lighting: Lighting, view: Viewfinder, s: FrameSamples, met: Met) {
  const { stage } = lighting;
  stage.people.forEach((person, p) => {
    const { glasses } = person.shape;
    if (!glasses) return;
    const share = (stage.plan.people[p].glasses?.coated ?? true) ? COATED : 1;
    for (const lens of glasses.lenses)
      oneLens(view, s, lensInWorld(lens, person), share, ACROSS[lighting.quality], met);
  });
}

function oneLens(view: Viewfinder, s: FrameSamples, lens: WorldLens, coat: number, across: number, met: Met) {
  const box = boxRound(view, lens);
  if (!box) return;
  const [x0, x1, y0, y1] = box;
  const onOutline = new Set(s.edges);
  const pixels = s.width * s.height;
  for (let y = y0; y <= y1; y++)
    for (let x = x0; x <= x1; x++) {
      const pixel = y * s.width + x;
      if (onOutline.has(pixel)) continue;
      for (let k = 0; k < across * across; k++) {
        const right = x + ((k % across) + 0.5) / across;
        const down = y + (Math.floor(k / across) + 0.5) / across;
        oneRay(view, s, lens, coat / (across * across), pixel, right, down, met);
      }
    }
  s.edges.forEach((pixel, e) => {
    const x = pixel % s.width;
    const y = Math.floor(pixel / s.width);
    if (x < x0 || x > x1 || y < y0 || y > y1) return;
    for (let k = 0; k < EXTRA; k++) {
      const i = pixels + EXTRA * e + k;
      oneRay(view, s, lens, coat, i, acrossOf(s, i), downOf(s, i), met);
    }
  });
}

const way = new Float64Array(3);
const surface = new Float64Array(6);

function oneRay(
  view: Viewfinder,
  s: FrameSamples,
  lens: WorldLens,
  part: number,
  sample: number,
  right: number,
  down: number,
  met: Met,
) {
  writeCameraRay(view, right, down, way);
  const slope = dot(way, lens.ahead);
  // from behind and along it nothing is mirrored to the camera
  if (!(slope < -ALONG)) return;
  const place = placeOnLens(lens, view.position, way);
  if (!place || !isOnLens(lens, place)) return;
  writeOnLens(lens, place, surface);
  const [x, y, z, nx, ny, nz] = surface;
  const t = dot(subtract(surface, view.position), way);
  if (t > s.depth[sample] && s.depth[sample] > 0) return;
  const along = way[0] * nx + way[1] * ny + way[2] * nz;
  if (!(along < 0)) return;
  const share = part * (1 - paneTransmittance(Math.acos(Math.min(1, -along)), LENS_INDEX));
  met(
    sample,
    share,
    x + LIFT * nx,
    y + LIFT * ny,
    z + LIFT * nz,
    way[0] - 2 * along * nx,
    way[1] - 2 * along * ny,
    way[2] - 2 * along * nz,
  );
}

const ALONG = 0.02;

/** Where a ray meets the front's sphere from before; null beside it. */
function placeOnLens(lens: WorldLens, from: readonly number[], d: Float64Array): LensPlace | null {
  const start = subtract(from, lens.centre);
  const { curveRadius: r } = lens;
  const height = dot(start, lens.ahead);
  const slope = dot(d, lens.ahead);
  let t = -height / slope;
  if (r !== Number.POSITIVE_INFINITY) {
    // (start + t d + r ahead)^2 = r^2, the nearer root, in the form that keeps its digits on a nearly flat lens
    const along = dot(start, d) + r * slope;
    const rest = dot(start, start) + 2 * r * height;
    const root = along * along - rest;
    if (!(root >= 0)) return null;
    t = rest / (Math.sqrt(root) - along);
  }
  return [dot(start, lens.left) + t * dot(d, lens.left), dot(start, lens.up) + t * dot(d, lens.up)];
}

/** Pixels that the lens may lie in: first and last column and row; null where none. */
function boxRound(view: Viewfinder, lens: WorldLens): [number, number, number, number] | null {
  const middle = project(view, lens.centre);
  if (!middle) return null;
  const depth = dot(subtract(lens.centre, view.position), view.forward);
  const radius = Math.hypot(lens.halfWidth, lens.halfHeight);
  const reach = (1.1 * radius * view.width) / (2 * view.tanX * Math.max(depth - radius, 1e-3));
  const x0 = Math.max(0, Math.floor(middle[0] - reach));
  const x1 = Math.min(view.width - 1, Math.ceil(middle[0] + reach));
  const y0 = Math.max(0, Math.floor(middle[1] - reach));
  const y1 = Math.min(view.height - 1, Math.ceil(middle[1] + reach));
  return x0 <= x1 && y0 <= y1 ? [x0, x1, y0, y1] : null;
}
