/** Rays through one mesh: its Bvh packed for the compiled walk (walk.as.ts), each in a memory of its own. */
import type { Bvh } from "./bvh.ts";
import { WALK } from "./walk.generated.ts";

/** What the last `closest` found; read it before the next call. */
export const found = { t: 0, triangle: -1, u: 0, v: 0 };

/** Rays cast by this thread since it began: the bench divides by it, tests see that nothing was traced. */
export const cast = { rays: 0 };

/** Most rays in a fan. */
export const FAN = 8192;
const RAYS = 4096;
const SEEN = RAYS + 16 * FAN;
const HEAP = SEEN + FAN;
const NODE = 112;
const GROUP = 160;
const PAGE = 65536;

/** The little of WebAssembly that is used, named here because the engine knows no browser and no Node. */
interface Walk {
  readonly memory: { readonly buffer: ArrayBuffer; grow(pages: number): number };
  setRoot(link: number): void;
  fan(count: number, x: number, y: number, z: number): void;
  closest(x: number, y: number, z: number, dx: number, dy: number, dz: number, tMax: number): number;
}
const { Module, Instance } = (
  globalThis as unknown as {
    WebAssembly: {
      Module: new (bytes: Uint8Array) => object;
      Instance: new (module: object) => { readonly exports: Walk };
    };
  }
).WebAssembly;

let compiled: object | null = null;

function newWalk(): Walk {
  compiled ??= new Module(
    Uint8Array.from(WALK.match(/../g) as string[], (byte) => Number.parseInt(byte, 16)),
  );
  return new Instance(compiled).exports;
}

/** One mesh, ready for rays. Positions are kept about the mesh's own middle, so that 32 bits resolve a tenth of a
 * micrometre however far from the origin it stands. */
export class Walker {
  private readonly walk: Walk = newWalk();
  private readonly middle = new Float64Array(3);
  private readonly rays: Float32Array;
  /** per ray of a fan: 1 asks; 0 afterwards where something stands in the way */
  readonly seen: Uint8Array;
  private readonly empty: boolean;

  constructor(private readonly bvh: Bvh) {
    this.empty = bvh.triData.length === 0;
    const b = bvh.nodeBounds;
    for (let k = 0; k < 3; k++) this.middle[k] = this.empty ? 0 : (b[k] + b[3 + k]) / 2;
    const plan = this.empty ? [] : widen(bvh);
    let at = HEAP;
    const nodeAt = plan.map(() => {
      at += NODE;
      return at - NODE;
    });
    at = (at + 15) & ~15;
    const leaves = this.empty ? 0 : countGroups(bvh);
    const size = at + GROUP * leaves;
    const { memory } = this.walk;
    const missing = Math.ceil((size - memory.buffer.byteLength) / PAGE);
    if (missing > 0) memory.grow(missing);
    if (!this.empty) this.write(plan, nodeAt, at);
    this.rays = new Float32Array(memory.buffer, RAYS, 4 * FAN);
    this.seen = new Uint8Array(memory.buffer, SEEN, FAN);
  }

  /** Ray `i` of the next fan. */
  setRay(i: number, dx: number, dy: number, dz: number, tMax: number) {
    const k = 4 * i;
    this.rays[k] = dx;
    this.rays[k + 1] = dy;
    this.rays[k + 2] = dz;
    this.rays[k + 3] = tMax;
  }

  /** Clears `seen` of the asked rays among the first `count` that something stops. */
  fan(count: number, ox: number, oy: number, oz: number) {
    if (this.empty) return;
    const m = this.middle;
    this.walk.fan(count, ox - m[0], oy - m[1], oz - m[2]);
  }

  /** Nearest hit with 0 < t < tMax; true where there is one, then described by `found`, to 64 bits. */
  closest(ox: number, oy: number, oz: number, dx: number, dy: number, dz: number, tMax: number): boolean {
    if (this.empty) return false;
    const m = this.middle;
    cast.rays++;
    const place = this.walk.closest(ox - m[0], oy - m[1], oz - m[2], dx, dy, dz, tMax);
    if (place < 0) return false;
    const d = this.bvh.triData;
    const k = 9 * place;
    const e1x = d[k + 3];
    const e1y = d[k + 4];
    const e1z = d[k + 5];
    const e2x = d[k + 6];
    const e2y = d[k + 7];
    const e2z = d[k + 8];
    const px = dy * e2z - dz * e2y;
    const py = dz * e2x - dx * e2z;
    const pz = dx * e2y - dy * e2x;
    const inv = 1 / (e1x * px + e1y * py + e1z * pz);
    const sx = ox - d[k];
    const sy = oy - d[k + 1];
    const sz = oz - d[k + 2];
    const qx = sy * e1z - sz * e1y;
    const qy = sz * e1x - sx * e1z;
    const qz = sx * e1y - sy * e1x;
    found.t = (e2x * qx + e2y * qy + e2z * qz) * inv;
    found.u = (sx * px + sy * py + sz * pz) * inv;
    found.v = (dx * qx + dy * qy + dz * qz) * inv;
    found.triangle = this.bvh.triId[place];
    return true;
  }

  private write(plan: readonly number[][], nodeAt: readonly number[], firstLeaf: number) {
    const { nodeBounds, nodeLink, triData } = this.bvh;
    const f = new Float32Array(this.walk.memory.buffer);
    const n = new Int32Array(this.walk.memory.buffer);
    const m = this.middle;
    const placeOf = new Map<number, number>();
    plan.forEach(([node], i) => {
      placeOf.set(node, nodeAt[i]);
    });
    let leaf = firstLeaf;
    const linkOf = (node: number): number => {
      const inner = placeOf.get(node);
      if (inner !== undefined) return inner;
      const first = nodeLink[2 * node];
      const count = nodeLink[2 * node + 1];
      const groups = Math.ceil(count / 4);
      const link = ~(leaf | (groups - 1));
      for (let i = 0; i < 4 * groups; i++) {
        const w = (leaf >> 2) + 40 * (i >> 2) + (i & 3);
        const from = 9 * (first + i);
        // a missing fourth stays all zero: its determinant is 0 and nothing meets it
        if (i >= count) continue;
        for (let k = 0; k < 9; k++) f[w + 4 * k] = triData[from + k] - (k < 3 ? m[k] : 0);
        n[w + 36] = first + i;
      }
      leaf += GROUP * groups;
      return link;
    };
    plan.forEach(([, ...children], i) => {
      const w = nodeAt[i] >> 2;
      for (let c = 0; c < 4; c++) {
        const child = children[c];
        for (let k = 0; k < 3; k++) {
          // NaN is met by no ray
          f[w + 8 * k + c] = child === undefined ? Number.NaN : down(nodeBounds[6 * child + k] - m[k]);
          f[w + 8 * k + 4 + c] =
            child === undefined ? Number.NaN : -down(m[k] - nodeBounds[6 * child + 3 + k]);
        }
        n[w + 24 + c] = child === undefined ? 0 : linkOf(child);
      }
    });
    this.walk.setRoot(linkOf(0));
  }
}

/** The next smaller 32-bit number or a little less: boxes may grow, never shrink. */
function down(x: number): number {
  return x - Math.abs(x) * 2.4e-7 - 1e-9;
}

/** Two-wide nodes drawn together into four-wide ones: [node, up to four children], the root first. The child with the
 * largest surface is opened first, so that the widest boxes cost no step of their own. */
function widen({ nodeBounds, nodeLink }: Bvh): number[][] {
  const inner = (node: number) => nodeLink[2 * node + 1] === 0;
  const size = (node: number) => {
    const [x, y, z] = [0, 1, 2].map((k) => nodeBounds[6 * node + 3 + k] - nodeBounds[6 * node + k]);
    return x * y + y * z + z * x;
  };
  const out: number[][] = [];
  const todo = inner(0) ? [0] : [];
  while (todo.length > 0) {
    const node = todo.pop() as number;
    const children = [nodeLink[2 * node], nodeLink[2 * node] + 1];
    while (children.length < 4) {
      let open = -1;
      for (let i = 0; i < children.length; i++)
        if (inner(children[i]) && (open < 0 || size(children[i]) > size(children[open]))) open = i;
      if (open < 0) break;
      const [wide] = children.splice(open, 1);
      children.push(nodeLink[2 * wide], nodeLink[2 * wide] + 1);
    }
    out.push([node, ...children]);
    todo.push(...children.filter(inner));
  }
  return out;
}

function countGroups({ nodeLink }: Bvh): number {
  let groups = 0;
  for (let i = 1; i < nodeLink.length; i += 2) groups += Math.ceil(nodeLink[i] / 4);
  return groups;
}
