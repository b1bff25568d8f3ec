/** What a sitter's hand or a plumb line can find of a light, a panel or the camera. */
import { frontCorners, type Plan, panelFront, type Vec3 } from "../plan/index.ts";

export interface Target {
  /** path of what stands there: "lights[0]" */
  readonly owner: string;
  readonly kind: "front" | "panel" | "lamp" | "lens";
  readonly at: Readonly<Vec3>;
  /** joined round; the place itself of a lamp and a lens */
  readonly outline: readonly Readonly<Vec3>[];
  /** a stand is under it, upright: what of a bare lamp is touched */
  readonly isOnStand: boolean;
}

/** In the plan's order: lights, panels, camera. */
export function targetsOf({ lights, panels, camera }: Plan): Target[] {
  const alone = (owner: string, kind: Target["kind"], at: Readonly<Vec3>, isOnStand: boolean): Target => ({
    owner,
    kind,
    at,
    outline: [at],
    isOnStand,
  });
  return [
    ...lights.map((light, i): Target => {
      const owner = `lights[${i}]`;
      const { position: at, support, face } = light;
      const isOnStand = support !== undefined && support !== null && support.arm === null;
      if (face.shape === "point") return alone(owner, "lamp", at, isOnStand);
      return { owner, kind: "front", at, outline: frontCorners(light), isOnStand };
    }),
    ...panels.map((panel, i): Target => {
      const outline = frontCorners(panelFront(panel));
      return { owner: `panels[${i}]`, kind: "panel", at: panel.position, outline, isOnStand: false };
    }),
    alone("camera", "lens", camera.position, false),
  ];
}

export interface Touch {
  readonly point: Readonly<Vec3>;
  /** "near rim", "front", "stand" */
  readonly name: string;
  /** a rim is found without pushing at cloth: worth so many fingers of gap */
  readonly cost: number;
}

const CLOTH_COST = 3;

/** What of it lies nearest to a shoulder: its rim, and its face where that is nearer still. A bare lamp is hot and is not
 * touched: its stand is. */
export function touchesOf(target: Target, from: Readonly<Vec3>): Touch[] {
  const { kind, at, outline, isOnStand } = target;
  if (kind === "lamp") {
    const point: Vec3 = [at[0], at[1], Math.min(at[2], from[2])];
    return isOnStand ? [{ point, name: "stand", cost: 0 }] : [];
  }
  if (kind === "lens") return [{ point: at, name: "lens", cost: 0 }];
  const rim = nearestOn(outline, (p) => Math.hypot(p[0] - from[0], p[1] - from[1], p[2] - from[2]), from);
  const touches: Touch[] = [{ point: rim, name: rimName(target, rim), cost: 0 }];
  const within = facing(outline, from);
  if (within !== null) touches.push({ point: within, name: kind, cost: CLOTH_COST });
  return touches;
}

/** What of it lies nearest to a mark as seen from above, and hangs over the floor there. */
export function plumbOf(target: Target, [x, y]: readonly [number, number]): Touch {
  const { kind, at, outline } = target;
  if (kind === "lamp" || kind === "lens") return { point: at, name: kind, cost: 0 };
  const flat = outline.map((p): Vec3 => [p[0], p[1], 0]);
  const near = nearestOn(flat, (p) => Math.hypot(p[0] - x, p[1] - y), [x, y, 0]);
  return { point: near, name: kind === "front" ? "near rim" : "near edge", cost: 0 };
}

/** Of all sides the point that is nearest to `from`. */
function nearestOn(
  outline: readonly Readonly<Vec3>[],
  farOf: (p: Readonly<Vec3>) => number,
  from: Readonly<Vec3>,
): Readonly<Vec3> {
  let best = outline[0];
  let least = Infinity;
  outline.forEach((a, i) => {
    const b = outline[(i + 1) % outline.length];
    const u = [0, 1, 2].map((k) => b[k] - a[k]);
    const long = dot(u, u);
    const along = dot(
      u,
      from.map((x, k) => x - a[k]),
    );
    const t = long > 0 ? Math.min(1, Math.max(0, along / long)) : 0;
    const p: Vec3 = [a[0] + t * u[0], a[1] + t * u[1], a[2] + t * u[2]];
    const far = farOf(p);
    if (far < least) [best, least] = [p, far];
  });
  return best;
}

/** The point of a flat, convex outline that is straight before `from`; null where that lies outside it. */
function facing(outline: readonly Readonly<Vec3>[], from: Readonly<Vec3>): Vec3 | null {
  const [a, b, c] = outline;
  const normal = cross(
    b.map((x, k) => x - a[k]),
    c.map((x, k) => x - a[k]),
  );
  const long = Math.hypot(...normal);
  if (!(long > 0)) return null;
  const unit = normal.map((x) => x / long);
  const off = dot(
    unit,
    from.map((x, k) => x - a[k]),
  );
  const p: Vec3 = [from[0] - off * unit[0], from[1] - off * unit[1], from[2] - off * unit[2]];
  const isIn = outline.every((corner, i) => {
    const next = outline[(i + 1) % outline.length];
    const side = next.map((x, k) => x - corner[k]);
    const to = p.map((x, k) => x - corner[k]);
    return dot(cross(side, to), unit) >= 0;
  });
  return isIn ? p : null;
}

/** The lower rim of anything smaller is the rim. */
const TALL_M = 0.3;

/** The lowest tenth of what is tall has a name of its own. */
function rimName({ kind, outline }: Target, point: Readonly<Vec3>): string {
  const heights = outline.map(([, , z]) => z);
  const [low, high] = [Math.min(...heights), Math.max(...heights)];
  const isLow = high - low > TALL_M && point[2] - low < 0.1 * (high - low);
  return `${isLow ? "lower" : "near"} ${kind === "front" ? "rim" : "edge"}`;
}

const dot = (a: readonly number[], b: readonly number[]) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: readonly number[], b: readonly number[]) => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
