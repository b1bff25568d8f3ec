import type { Drawing, Shape } from "../sheet/index.ts";
import type { PlacedLabel } from "./label-places.ts";
import type { Projection } from "./projection.ts";

/** A shape's outline on the screen. */
export function pathOf(shape: Shape, projection: Projection): string {
  let data = "";
  shape.points.forEach(([across, up], index) => {
    const { x, y } = projection.toScreen(across, up);
    data += `${index === 0 ? "M" : "L"}${x.toFixed(1)},${y.toFixed(1)}`;
  });
  return shape.closed ? `${data}Z` : data;
}

interface OwnerProps {
  readonly drawing: Drawing;
  readonly owner: string;
  readonly projection: Projection;
}

/** Lines that only show where something points: they are looked at, not taken hold of. */
const LINES = new Set<Shape["kind"]>(["axis", "field", "nose", "mark"]);

/** An object's own outline at scale, with enough reach round it for a finger. */
export function OwnerShapes({ drawing, owner, projection }: OwnerProps) {
  const own = drawing.shapes.filter((shape) => shape.owner === owner);
  return (
    <>
      {own
        .filter((shape) => !LINES.has(shape.kind))
        .map((shape, index) => (
          <path key={index} class="reach" d={pathOf(shape, projection)} />
        ))}
      {own
        .filter((shape) => shape.kind === "backdrop" && shape.closed)
        .map((shape) => (
          <path
            key="hang"
            class="outline hang"
            d={pathOf({ ...shape, points: shape.points.slice(0, 2), closed: false }, projection)}
          />
        ))}
      {own.map((shape, index) => (
        <path
          key={index}
          class={`outline ${shape.kind}${shape.off ? " off" : ""}`}
          d={pathOf(shape, projection)}
        />
      ))}
    </>
  );
}

export function NameLabel({ label }: { label: PlacedLabel | undefined }) {
  if (label === undefined) return null;
  return (
    <text class="label" x={label.x} y={label.y} text-anchor={label.anchor}>
      {label.text}
    </text>
  );
}
