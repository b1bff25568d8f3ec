import type { Shape } from "../sheet/index.ts";
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

interface ShapesProps {
  readonly shapes: readonly Shape[];
  readonly projection: Projection;
}

/** Lines that only show where something points: they are looked at, not taken hold of. */
const LINES = new Set<Shape["kind"]>(["axis", "field", "nose", "mark"]);

/** An object's own outline at scale, with enough reach round it for a finger. */
export function OwnerShapes({ shapes, projection }: ShapesProps) {
  const paths = shapes.map((shape) => pathOf(shape, projection));
  return (
    <>
      {shapes.map(
        (shape, index) =>
          !LINES.has(shape.kind) && <path key={index} class={`reach of-${shape.kind}`} d={paths[index]} />,
      )}
      {shapes
        .filter((shape) => shape.kind === "backdrop" && shape.closed)
        .map((shape) => (
          <path
            key="hang"
            class="outline hang"
            d={pathOf({ ...shape, points: shape.points.slice(0, 2), closed: false }, projection)}
          />
        ))}
      {shapes.map((shape, index) => (
        <path key={index} class={`outline ${shape.kind}${shape.off ? " off" : ""}`} d={paths[index]} />
      ))}
    </>
  );
}

/** Half of the head of a drawing pin, pixels. */
const PIN_PX = 3;

/** What is pinned has a pin through the first corner of its outline. */
export function Pin({ shapes, projection }: ShapesProps) {
  const [corner] = shapes.find((shape) => !LINES.has(shape.kind))?.points ?? [];
  if (corner === undefined) return null;
  const { x, y } = projection.toScreen(corner[0], corner[1]);
  return (
    <rect class="pin" x={x - PIN_PX} y={y - PIN_PX} width={2 * PIN_PX} height={2 * PIN_PX}>
      <title>pinned</title>
    </rect>
  );
}

export function NameLabel({ label }: { label: PlacedLabel | undefined }) {
  if (label === undefined) return null;
  return (
    // biome-ignore lint/a11y/noAriaHiddenOnFocusable: it is no place for keys, and what holds it says the whole name
    <text aria-hidden="true" class="label" x={label.x} y={label.y} text-anchor={label.anchor}>
      {label.text}
    </text>
  );
}
