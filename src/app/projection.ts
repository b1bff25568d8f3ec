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

/** The window through which the paper is seen, and what of it the rulers take, pixels. */
export interface Pane {
  readonly extent: Extent;
  readonly size: { readonly width: number; readonly height: number };
  readonly margin: {
    readonly left: number;
    readonly right: number;
    readonly top: number;
    readonly bottom: number;
  };
}

/** What is looked at: the paper's point in the middle of the window, so many times as large as the whole room. */
export interface Sight {
  readonly times: number;
  readonly across: number;
  readonly up: number;
}

/** As near as anybody needs to place a mark: a centimetre is 12 pixels. */
const NEAREST_PX_PER_M = 1200;

/** Pixels per metre at which the whole extent fits into the window. */
function fitScale({ extent, size, margin }: Pane): number {
  const across = Math.max(0.1, extent.across1 - extent.across0);
  const up = Math.max(0.1, extent.up1 - extent.up0);
  return Math.max(
    4,
    Math.min(
      (size.width - margin.left - margin.right) / across,
      (size.height - margin.top - margin.bottom) / up,
    ),
  );
}

/** The whole extent at the largest true scale, or what a sight shows of it. The whole sits at the bottom left, so that
 * the rulers stay where they are; a part fills the window as far as there is paper. */
export function projectionOf(pane: Pane, sight: Sight | null): Projection {
  const { extent, size, margin } = pane;
  const scale = fitScale(pane) * (sight?.times ?? 1);
  const across = (extent.across1 - extent.across0) * scale;
  const up = (extent.up1 - extent.up0) * scale;
  const width = size.width - margin.left - margin.right;
  const height = size.height - margin.top - margin.bottom;
  let left = margin.left;
  let bottom = margin.top + (sight === null ? up : Math.min(up, height));
  if (sight !== null && across > width) {
    const wanted = margin.left + width / 2 - (sight.across - extent.across0) * scale;
    left = Math.min(margin.left, Math.max(margin.left + width - across, wanted));
  }
  if (sight !== null && up > height) {
    const wanted = margin.top + height / 2 + (sight.up - extent.up0) * scale;
    bottom = Math.max(margin.top + height, Math.min(margin.top + up, wanted));
  }
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

/** The sight that shows a point of the paper at a place in the window, so many times as large as the whole; null is
 * the whole. At the paper's edges the place gives way: there is nothing to see beyond. */
export function sightThrough(
  pane: Pane,
  point: { readonly across: number; readonly up: number },
  at: { readonly x: number; readonly y: number },
  times: number,
): Sight | null {
  if (times <= 1.001) return null;
  const { size, margin } = pane;
  const fit = fitScale(pane);
  const kept = Math.min(times, Math.max(1, NEAREST_PX_PER_M / fit));
  const scale = fit * kept;
  const middle = {
    x: margin.left + (size.width - margin.left - margin.right) / 2,
    y: margin.top + (size.height - margin.top - margin.bottom) / 2,
  };
  return {
    times: kept,
    across: point.across + (middle.x - at.x) / scale,
    up: point.up + (at.y - middle.y) / scale,
  };
}

/** The part of the paper that is seen, as an extent. */
export function seenExtent({ extent, size, margin }: Pane, projection: Projection): Extent {
  const a = projection.toPaper(margin.left, size.height - margin.bottom);
  const b = projection.toPaper(size.width - margin.right, margin.top);
  return {
    across0: Math.max(extent.across0, a.across),
    across1: Math.min(extent.across1, b.across),
    up0: Math.max(extent.up0, a.up),
    up1: Math.min(extent.up1, b.up),
  };
}
