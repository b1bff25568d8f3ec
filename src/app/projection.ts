/** From metres on the paper to pixels on the screen and back. Both axes have the same scale: the drawing is true. */
export interface Projection {
  /** pixels per metre */
  readonly scale: number;
  toScreen(across_m: number, up_m: number): { x: number; y: number };
  toPaper(x: number, y: number): { across: number; up: number };
}

export interface Extent {
  readonly across0: number;
  readonly across1: number;
  readonly up0: number;
  readonly up1: number;
}

/** The largest true scale at which the extent fits into width × height with the margins given, pixels.
 * The extent sits at the bottom left, so that the rulers stay where they are. */
export function fitProjection(
  extent: Extent,
  size: { width: number; height: number },
  margin: { left: number; right: number; top: number; bottom: number },
): Projection {
  const across = Math.max(0.1, extent.across1 - extent.across0);
  const up = Math.max(0.1, extent.up1 - extent.up0);
  const scale = Math.max(
    4,
    Math.min(
      (size.width - margin.left - margin.right) / across,
      (size.height - margin.top - margin.bottom) / up,
    ),
  );
  const left = margin.left;
  const bottom = margin.top + up * scale;
  return {
    scale,
    toScreen: (across_m, up_m) => ({
      x: left + (across_m - extent.across0) * scale,
      y: bottom - (up_m - extent.up0) * scale,
    }),
    toPaper: (x, y) => ({
      across: extent.across0 + (x - left) / scale,
      up: extent.up0 + (bottom - y) / scale,
    }),
  };
}

/** Where the ruler has its marks: whole metres, or whole feet, thinned out until they stand clear of each other. */
export function rulerMarks(from_m: number, to_m: number, unit_m: number, scale: number): number[] {
  const least = 26;
  const step = [1, 2, 5, 10, 20, 50, 100].find((n) => n * unit_m * scale >= least) ?? 100;
  const marks: number[] = [];
  const first = Math.ceil(from_m / unit_m - 1e-9);
  const last = Math.floor(to_m / unit_m + 1e-9);
  for (let mark = Math.ceil(first / step) * step; mark <= last; mark += step) marks.push(mark);
  return marks;
}
