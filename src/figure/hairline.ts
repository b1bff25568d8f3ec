/** Where hair begins, seen from the side: x ahead and z up, centimetres. Hair grows inside the loop. */

/** From the middle of the forehead over the temple, the tuft before the ear, round the ear to the nape, and back
 * over the head, far outside it. The measured front of the face ends just before its first six. */
const LOOP: readonly (readonly [number, number])[] = [
  [8.7, 8.05],
  [7.7, 7.75],
  [6.7, 7.4],
  [5.7, 6.9],
  [4.8, 6.1],
  [4.1, 5.1],
  [3.7, 4.0],
  [3.2, 2.9],
  [2.6, 1.7],
  [2.2, 0.4],
  [1.8, -0.3],
  [1.2, -0.2],
  [0.95, 1.3],
  [0.5, 3.0],
  [-0.6, 4.0],
  [-2.2, 4.1],
  [-3.4, 3.2],
  [-3.8, 1.4],
  [-3.9, -1.0],
  [-4.2, -3.2],
  [-5.0, -5.2],
  [-6.5, -6.6],
  [-13, -7.2],
  [-13, 22],
  [16, 22],
  [16, 9.2],
];

/** Distance from the hairline, positive where hair grows: exact from the loop of straight pieces. */
export function behindHairline(x: number, z: number): number {
  let least = Infinity;
  let inside = false;
  let [ax, az] = LOOP[LOOP.length - 1];
  for (const [bx, bz] of LOOP) {
    const ux = bx - ax;
    const uz = bz - az;
    const t = Math.min(1, Math.max(0, ((x - ax) * ux + (z - az) * uz) / (ux * ux + uz * uz)));
    const dx = x - ax - t * ux;
    const dz = z - az - t * uz;
    least = Math.min(least, dx * dx + dz * dz);
    if (az > z !== bz > z && x < ax + ((z - az) * ux) / uz) inside = !inside;
    ax = bx;
    az = bz;
  }
  return inside ? Math.sqrt(least) : -Math.sqrt(least);
}
