/** The walk through a hierarchy of triangles, compiled to WebAssembly with 4-wide arithmetic (npm run kernel).
 *
 * Memory  STACK: entries of (node or leaf, entry distance), 8 bytes each
 *         RAYS: 16 bytes a ray: direction xyz, distance tMax (32-bit floats); the fan's origin is an argument
 *         SEEN: a byte a ray: 1 asks, 0 is skipped; the walk writes 0 where something stands in the way
 *         from HEAP on: nodes, then leaves; src/engine/packed.ts writes them
 * Node    112 bytes: four boxes side by side (min x of all four, max x, min y, max y, min z, max z), four links.
 *         A link >= 0 is the address of a node; < 0 is ~(address of a leaf | groups of four - 1), leaves lie on 16 bytes
 * Leaf    160 bytes a group of four triangles side by side: corner xyz, edge 1 xyz, edge 2 xyz, place in the Bvh's order */
const STACK: usize = 1024;
const RAYS: usize = 4096;
const SEEN: usize = 135168;

/** Triangles reach this share of their size over their edges, or a ray exactly along an edge slips between two
 * of them: ten times the rounding of 32 bits, thirty nanometres on a facet of skin. */
const EDGE: f32 = 1e-5;
/** Far planes of boxes are pushed out by the rounding of the slab test. Source: Ize 2013, Robust BVH ray traversal */
const ROBUST: f32 = 1.0000005;

let root: i32 = 0;
let ox: v128 = f32x4.splat(0);
let oy: v128 = f32x4.splat(0);
let oz: v128 = f32x4.splat(0);
let dx: v128 = f32x4.splat(0);
let dy: v128 = f32x4.splat(0);
let dz: v128 = f32x4.splat(0);
let ix: v128 = f32x4.splat(0);
let iy: v128 = f32x4.splat(0);
let iz: v128 = f32x4.splat(0);
let hitT: v128 = f32x4.splat(0);

export function setRoot(link: i32): void {
  root = link;
}

// @ts-ignore: decorator
@inline
function away(d: f32): f32 {
  return abs(d) < 1e-18 ? (d < 0 ? -1e18 : 1e18) : 1 / d;
}

// @ts-ignore: decorator
@inline
function aim(x: f32, y: f32, z: f32): void {
  dx = f32x4.splat(x);
  dy = f32x4.splat(y);
  dz = f32x4.splat(z);
  ix = f32x4.splat(away(x));
  iy = f32x4.splat(away(y));
  iz = f32x4.splat(away(z));
}

/** Which of the four boxes of a node are met before tMax; entry distances into hitT. */
// @ts-ignore: decorator
@inline
function boxes(node: usize, tMax: v128): i32 {
  const ax = f32x4.mul(f32x4.sub(v128.load(node), ox), ix);
  const bx = f32x4.mul(f32x4.sub(v128.load(node, 16), ox), ix);
  const ay = f32x4.mul(f32x4.sub(v128.load(node, 32), oy), iy);
  const by = f32x4.mul(f32x4.sub(v128.load(node, 48), oy), iy);
  const az = f32x4.mul(f32x4.sub(v128.load(node, 64), oz), iz);
  const bz = f32x4.mul(f32x4.sub(v128.load(node, 80), oz), iz);
  const near = f32x4.max(
    f32x4.max(f32x4.min(ax, bx), f32x4.min(ay, by)),
    f32x4.max(f32x4.min(az, bz), f32x4.splat(0)),
  );
  const far = f32x4.min(f32x4.min(f32x4.max(ax, bx), f32x4.max(ay, by)), f32x4.max(az, bz));
  hitT = near;
  return v128.bitmask<i32>(
    v128.and(f32x4.le(near, f32x4.mul(far, f32x4.splat(ROBUST))), f32x4.lt(near, tMax)),
  );
}

/** Which of four triangles are met at 0 < t < tMax; distances into hitT. Source: Moller and Trumbore 1997 */
// @ts-ignore: decorator
@inline
function triangles(group: usize, tMax: v128): i32 {
  const e1x = v128.load(group, 48);
  const e1y = v128.load(group, 64);
  const e1z = v128.load(group, 80);
  const e2x = v128.load(group, 96);
  const e2y = v128.load(group, 112);
  const e2z = v128.load(group, 128);
  const px = f32x4.sub(f32x4.mul(dy, e2z), f32x4.mul(dz, e2y));
  const py = f32x4.sub(f32x4.mul(dz, e2x), f32x4.mul(dx, e2z));
  const pz = f32x4.sub(f32x4.mul(dx, e2y), f32x4.mul(dy, e2x));
  const det = f32x4.add(f32x4.add(f32x4.mul(e1x, px), f32x4.mul(e1y, py)), f32x4.mul(e1z, pz));
  const inv = f32x4.div(f32x4.splat(1), det);
  const sx = f32x4.sub(ox, v128.load(group));
  const sy = f32x4.sub(oy, v128.load(group, 16));
  const sz = f32x4.sub(oz, v128.load(group, 32));
  const u = f32x4.mul(f32x4.add(f32x4.add(f32x4.mul(sx, px), f32x4.mul(sy, py)), f32x4.mul(sz, pz)), inv);
  const qx = f32x4.sub(f32x4.mul(sy, e1z), f32x4.mul(sz, e1y));
  const qy = f32x4.sub(f32x4.mul(sz, e1x), f32x4.mul(sx, e1z));
  const qz = f32x4.sub(f32x4.mul(sx, e1y), f32x4.mul(sy, e1x));
  const v = f32x4.mul(f32x4.add(f32x4.add(f32x4.mul(dx, qx), f32x4.mul(dy, qy)), f32x4.mul(dz, qz)), inv);
  const t = f32x4.mul(f32x4.add(f32x4.add(f32x4.mul(e2x, qx), f32x4.mul(e2y, qy)), f32x4.mul(e2z, qz)), inv);
  const least = f32x4.splat(-EDGE);
  const inside = v128.and(
    v128.and(f32x4.ge(u, least), f32x4.ge(v, least)),
    f32x4.le(f32x4.add(u, v), f32x4.splat(1 + EDGE)),
  );
  hitT = t;
  return v128.bitmask<i32>(v128.and(inside, v128.and(f32x4.gt(t, f32x4.splat(0)), f32x4.lt(t, tMax))));
}

/** Clears SEEN of every asked ray of the fan that meets something before its tMax. What stopped one ray is tried
 * first on the next: neighbours in a fan are mostly stopped by the same thing. */
export function fan(count: i32, x: f32, y: f32, z: f32): void {
  ox = f32x4.splat(x);
  oy = f32x4.splat(y);
  oz = f32x4.splat(z);
  let last: usize = 0;
  for (let r = 0; r < count; r++) {
    if (load<u8>(SEEN + r) === 0) continue;
    const ray = RAYS + (<usize>r << 4);
    aim(load<f32>(ray), load<f32>(ray, 4), load<f32>(ray, 8));
    const tMax = f32x4.splat(load<f32>(ray, 12));
    if (last !== 0 && triangles(last, tMax) !== 0) {
      store<u8>(SEEN + r, 0);
      continue;
    }
    const group = firstHit(tMax);
    if (group === 0) continue;
    last = group;
    store<u8>(SEEN + r, 0);
  }
}

/** The group of triangles that stops the ray, 0 where none does. */
function firstHit(tMax: v128): usize {
  let top = STACK;
  store<i32>(top, root);
  top += 4;
  while (top > STACK) {
    top -= 4;
    const link = load<i32>(top);
    if (link < 0) {
      let group = <usize>(~link & ~15);
      const end = group + 160 * <usize>((~link & 15) + 1);
      for (; group < end; group += 160) if (triangles(group, tMax) !== 0) return group;
      continue;
    }
    let mask = boxes(<usize>link, tMax);
    while (mask !== 0) {
      const i = ctz(mask);
      mask &= mask - 1;
      store<i32>(top, load<i32>(<usize>link + (<usize>i << 2), 96));
      top += 4;
    }
  }
  return 0;
}

/** Place (in the Bvh's order) of the nearest triangle with 0 < t < tMax, -1 where there is none. */
export function closest(x: f32, y: f32, z: f32, vx: f32, vy: f32, vz: f32, tMax: f32): i32 {
  ox = f32x4.splat(x);
  oy = f32x4.splat(y);
  oz = f32x4.splat(z);
  aim(vx, vy, vz);
  let best = tMax;
  let hit = -1;
  let top = STACK;
  store<i32>(top, root);
  store<f32>(top, 0, 4);
  top += 8;
  while (top > STACK) {
    top -= 8;
    if (load<f32>(top, 4) >= best) continue;
    const link = load<i32>(top);
    if (link < 0) {
      let group = <usize>(~link & ~15);
      const end = group + 160 * <usize>((~link & 15) + 1);
      for (; group < end; group += 160) {
        let mask = triangles(group, f32x4.splat(best));
        if (mask === 0) continue;
        v128.store(STACK - 16, hitT);
        while (mask !== 0) {
          const i = <usize>ctz(mask) << 2;
          mask &= mask - 1;
          const t = load<f32>(STACK - 16 + i);
          if (t < best) {
            best = t;
            hit = load<i32>(group + i, 144);
          }
        }
      }
      continue;
    }
    let mask = boxes(<usize>link, f32x4.splat(best));
    if (mask === 0) continue;
    v128.store(STACK - 16, hitT);
    // the nearest box goes on top of the stack, the others below it as they come
    const first = top;
    while (mask !== 0) {
      const i = <usize>ctz(mask) << 2;
      mask &= mask - 1;
      const t = load<f32>(STACK - 16 + i);
      const child = load<i32>(<usize>link + i, 96);
      if (top > first && t > load<f32>(top - 8, 4)) {
        store<i32>(top, load<i32>(top - 8));
        store<f32>(top, load<f32>(top - 8, 4), 4);
        store<i32>(top - 8, child);
        store<f32>(top - 8, t, 4);
      } else {
        store<i32>(top, child);
        store<f32>(top, t, 4);
      }
      top += 8;
    }
  }
  return hit;
}
