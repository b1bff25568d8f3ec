import type { ComponentChildren } from "preact";
import type { Extent, Projection } from "./projection.ts";

interface PaperProps {
  readonly extent: Extent;
  readonly projection: Projection;
  readonly isRoom: boolean;
  /** a name of its own in the document */
  readonly clip: string;
  readonly children?: ComponentChildren;
}

/** The sheet itself: the room's walls, or in open space only where the drawing ends. What is drawn on it ends there. */
export function Paper({ extent, projection, isRoom, clip, children }: PaperProps) {
  const a = projection.toScreen(extent.across0, extent.up1);
  const b = projection.toScreen(extent.across1, extent.up0);
  const box = { x: a.x, y: a.y, width: b.x - a.x, height: b.y - a.y };
  return (
    <>
      <clipPath id={`${clip}-paper`}>
        <rect {...box} />
      </clipPath>
      <rect class={isRoom ? "paper" : "paper open"} {...box} />
      <g clip-path={`url(#${clip}-paper)`}>{children}</g>
    </>
  );
}
