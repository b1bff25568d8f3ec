/** Spectacles fitted to a head: two rims, a bridge on the nose, pads, and temples to behind the ears. Metres. */
import { type GlassesFit, lensAt, lensOutline, onLens } from "./lens.ts";
import type { Point } from "./measures.ts";
import { Relief } from "./relief.ts";
import { cross, curve, rod, section, unit } from "./rods.ts";
import { joinMeshes, mirrored, ringOver, skinOver } from "./solids.ts";
import { type Glasses, type Head, type Lens, MATERIAL, type Mesh } from "./types.ts";

/** From the cornea's apex to the front of the lens: 12 mm to its back, the usual vertex distance, and 1.5 mm of lens;
 * up to 1.5 mm further, lenses come ahead rather than apart to clear the nose. */
const VERTEX = 0.0135;
const FURTHER = 0.0015;
/** The pupils look through a little above the lens's middle (common practice, no source). */
const BELOW_PUPIL = 0.001;
/** Half the least gap between the lenses, and how far it may grow where the nose is in the way. */
const HALF_GAP = 0.0085;
const GAP_GROWS = 0.006;
const GAP_STEP = 0.0005;
/** Half the rims' thickness across, and along the line of sight. */
const RIM = { across: 0.0013, deep: 0.0017 } as const;
const CLEAR = 0.0005;
const RIM_POINTS = 72;

/** Shape   two lenses on their rims, one joined mesh of closed parts, mirrored exactly
 * Domain  lenses as in the plan format
 * Errors  none; a lens too large for the face is carried further out until it clears it
 * Accuracy the front of a lens lies 13.5 to 15 mm before the cornea's apex where the face allows it [FG11]
 * Source  base curve: front radius 0.53 m over dioptres; the fit is common practice, no source */
export function buildGlasses(head: Head, fit: GlassesFit): Glasses {
  const face = new Relief(head.mesh, 0, 0.02);
  const left = placedLens(head, fit, face);
  const [x, y, z] = left.centre;
  const right = lensAt("right", [x, -y, z], fit);
  const own = [rim(left), ...pad(left, face), temple(left, head)];
  const frame = joinMeshes([...own, ...own.map(mirrored), bridge(left, face)]);
  return { frame, lenses: [left, right] };
}

/** The own left lens: as near to the pupil as the nose lets it, as near to the eye as brow and cheek do. */
function placedLens(head: Head, fit: GlassesFit, face: Relief): Lens {
  const [, pupil, up] = head.leftEye.centre;
  const narrowest = Math.max(pupil, fit.lensWidth / 2 + HALF_GAP);
  let best: Lens | null = null;
  for (let more = 0; more <= GAP_GROWS; more += GAP_STEP) {
    const lens = lensAt("left", [0, narrowest + more, up - BELOW_PUPIL], fit);
    const apex = head.leftEye.corneaCentre[0] + head.leftEye.corneaRadius;
    const wanted = apex + VERTEX - onLens(lens, pupil - lens.centre[1], BELOW_PUPIL)[0];
    const ahead = Math.max(wanted, clearOf(lens, face));
    if (best === null || ahead < best.centre[0])
      best = lensAt("left", [ahead, lens.centre[1], lens.centre[2]], fit);
    if (ahead <= wanted + FURTHER) break;
  }
  return best as Lens;
}

/** How far a lens whose vertex lies at 0 must come ahead so that rim and glass clear the skin. */
function clearOf(lens: Lens, face: Relief): number {
  let most = -Infinity;
  for (const { left, up, outLeft, outUp } of lensOutline(lens, RIM_POINTS))
    for (const share of [1, 0.8, 0.6]) {
      const [x, y, z] = onLens(lens, share * left + RIM.across * outLeft, share * up + RIM.across * outUp);
      most = Math.max(most, face.at(y, z) - (x - RIM.deep));
    }
  return most + CLEAR;
}

function rim(lens: Lens): Mesh {
  const loops = lensOutline(lens, RIM_POINTS).map(({ left, up, outLeft, outUp }) => {
    const middle = onLens(lens, left, up);
    return section(
      middle,
      [0, 1, 2].map((k) => RIM.across * (outLeft * lens.left[k] + outUp * lens.up[k])),
      lens.ahead.map((a) => RIM.deep * a),
    );
  });
  return ringOver(loops, MATERIAL.spectacleFrame);
}

/** Where the bridge leaves the rims, as a share of the lens's half-height over its middle; how far it arches. */
const BRIDGE_FROM = 0.3;
const BRIDGE_HALF = 0.0014;
const BRIDGE_ARCH = 0.0015;
const BRIDGE_STEP = 0.0004;
/** Pressed into the skin by this much, so that no light shows under it. */
const PRESSED = 0.0002;

/** From rim to rim, its middle resting on the ridge of the nose: as high there as the ridge meets its arch. */
function bridge(left: Lens, face: Relief): Mesh {
  const from = onLens(left, -left.halfWidth, BRIDGE_FROM * left.halfHeight);
  const ahead = from[0] + BRIDGE_ARCH;
  let up = from[2] + 0.008;
  while (up > from[2] - 0.006 && face.at(0, up) + BRIDGE_HALF - PRESSED < ahead) up -= BRIDGE_STEP;
  const rest = Math.max(ahead, face.at(0, up) + BRIDGE_HALF - PRESSED);
  const middle: Point = [rest, 0, up];
  const shoulder: Point = [from[0] + 0.7 * (rest - from[0]), 0.5 * from[1], from[2] + 0.75 * (up - from[2])];
  const half = [from, shoulder, middle];
  const other = [shoulder, from].map(([x, y, z]): Point => [x, -y, z]);
  return rod(
    curve([...half, ...other], 5),
    () => BRIDGE_HALF,
    () => BRIDGE_HALF * 1.25,
  );
}

/** Pads: half their thickness, length and breadth; how far behind the rim they rest; where they hang, as BRIDGE_FROM. */
const PAD = [0.0012, 0.0042, 0.0024] as const;
const PAD_BEHIND = 0.005;
const PAD_AT = -0.15;
const PAD_LOOPS = 8;
const SCAN = 0.0003;

/** A pad on the nose's own left side, and its arm. */
function pad(left: Lens, face: Relief): Mesh[] {
  const from = onLens(left, -left.halfWidth, PAD_AT * left.halfHeight);
  const x = from[0] - PAD_BEHIND;
  let y = 0;
  while (y < from[1] && face.at(y, from[2]) > x) y += SCAN;
  if (y === 0 || y >= from[1]) return [];
  const at: Point = [x, y + PAD[0] - PRESSED, from[2]];
  // it lies on the slope of the nose: along the ridge, which falls ahead by about 45 degrees, and across it
  const along = unit([-0.5, 0.12, 1]);
  const out = unit([0.55, 0.8, 0]);
  const wide = cross(along, out);
  const loops = Array.from({ length: PAD_LOOPS - 1 }, (_, i) => {
    const turn = (Math.PI * (i + 1)) / PAD_LOOPS;
    const middle = at.map((c, k) => c - PAD[1] * Math.cos(turn) * along[k]) as Point;
    return section(
      middle,
      out.map((c) => PAD[0] * Math.sin(turn) * c),
      wide.map((c) => PAD[2] * Math.sin(turn) * c),
    );
  });
  const end = (sign: number) => at.map((c, k) => c + sign * PAD[1] * along[k]) as Point;
  const body = skinOver(end(-1), loops, end(1), () => MATERIAL.spectacleFrame);
  const bend: Point = [(x + from[0]) / 2, 0.6 * from[1] + 0.4 * y, from[2] + 0.001];
  const arm = rod(
    curve([from, bend, at], 5),
    () => PAD_ARM,
    () => PAD_ARM,
  );
  return [body, arm];
}

const PAD_ARM = 0.0006;

/** Where a temple leaves the rim; half its thickness and height; how far it keeps off the skin. */
const TEMPLE_FROM = 0.45;
const TEMPLE = { across: 0.0011, tall: 0.002, tip: 0.0027 } as const;
const OFF_SKIN = 0.0012;
/** Over and behind the ear, on the mean head: ahead and up; it keeps to the crease between ear and skull. */
const OVER_EAR: readonly (readonly [number, number])[] = [
  [0.004, 0.0325],
  [-0.01, 0.0315],
  [-0.022, 0.024],
  [-0.03, 0.01],
  [-0.034, -0.004],
];
const EAR_CREASE = 0.0755;
/** Ahead of this there are no ears. */
const NO_EARS = 0.008;

function temple(left: Lens, head: Head): Mesh {
  const sides = new Relief(head.mesh, 1, 0.004);
  const from = onLens(left, left.halfWidth, TEMPLE_FROM * left.halfHeight);
  const hinge: Point = [from[0] - 0.004, from[1] + 0.004, from[2]];
  const ear = OVER_EAR.map(
    ([x, z], i): Point => [
      head.scale * x,
      head.scale * (EAR_CREASE - 0.0012 * Math.max(0, i - 1)),
      head.scale * z,
    ],
  );
  const straight = Array.from({ length: 6 }, (_, i): Point => {
    const t = (i + 1) / 7;
    return hinge.map((a, k) => a + t * (ear[0][k] - a)) as Point;
  });
  const path = curve([from, hinge, ...straight, ...ear], 3).map(([x, y, z]): Point => {
    const skin = x > head.scale * NO_EARS ? sides.at(x, z) : -Infinity;
    return [x, Math.max(y, skin + TEMPLE.across + OFF_SKIN), z];
  });
  const tall = (t: number) => TEMPLE.tall + (TEMPLE.tip - TEMPLE.tall) * Math.max(0, (t - 0.7) / 0.3);
  return rod(path, () => TEMPLE.across, tall);
}
