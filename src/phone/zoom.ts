/** Two fingers on a drawing make it larger and smaller about the point between them; one finger moves it. */

export const LARGEST = 5;

/** Never smaller than the screen is wide. */
export function zoomedBy(zoom: number, by: number): number {
  return Math.min(LARGEST, Math.max(1, zoom * by));
}

/** How far to scroll so that what lay under a point of the window still does, one axis.
 * Units   px: `at` from the window's own edge */
export function keptUnder(scroll: number, at: number, by: number): number {
  return Math.max(0, (scroll + at) * by - at);
}

/** The answer ends it. */
export function pinchable(area: HTMLElement, put: (change: (zoom: number) => number) => void): () => void {
  let apart: number | null = null;
  const spread = ({ touches: [a, b] }: TouchEvent) =>
    a === undefined || b === undefined ? null : Math.hypot(a.clientX - b.clientX, a.clientY - b.clientY);
  const onStart = (event: TouchEvent) => {
    apart = spread(event);
  };
  const onMove = (event: TouchEvent) => {
    const now = spread(event);
    const [a, b] = event.touches;
    if (now === null || apart === null || a === undefined || b === undefined) return;
    event.preventDefault();
    const by = now / apart;
    apart = now;
    const { left, top } = area.getBoundingClientRect();
    const [x, y] = [(a.clientX + b.clientX) / 2 - left, (a.clientY + b.clientY) / 2 - top];
    put((zoom) => {
      const next = zoomedBy(zoom, by);
      const to = [keptUnder(area.scrollLeft, x, next / zoom), keptUnder(area.scrollTop, y, next / zoom)];
      // once it is drawn: before that there is nowhere to scroll to
      requestAnimationFrame(() => area.scrollTo(to[0] as number, to[1] as number));
      return next;
    });
  };
  const onEnd = () => {
    apart = null;
  };
  area.addEventListener("touchstart", onStart, { passive: true });
  area.addEventListener("touchmove", onMove, { passive: false });
  area.addEventListener("touchend", onEnd);
  area.addEventListener("touchcancel", onEnd);
  return () => {
    area.removeEventListener("touchstart", onStart);
    area.removeEventListener("touchmove", onMove);
    area.removeEventListener("touchend", onEnd);
    area.removeEventListener("touchcancel", onEnd);
  };
}
