import type { Plan } from "../plan/index.ts";
import type { Drawing } from "../sheet/index.ts";
import { type Bench, takeHold } from "./bench.ts";
import { useStore } from "./hooks.ts";
import type { PlacedLabel } from "./label-places.ts";
import type { PlanObject } from "./objects.ts";
import type { Projection } from "./projection.ts";
import { NameLabel, OwnerShapes, Pin } from "./shapes.tsx";
import { Steady } from "./steady.ts";
import { placeWords } from "./tape-places.ts";

interface HoldableProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly drawing: Drawing;
  readonly projection: Projection;
  readonly object: PlanObject;
  readonly label: PlacedLabel | undefined;
}

/** An object on the sheet. What hand and keys do to it, the sheet sees to; who walks along with Tab takes hold of one
 * thing after the other, and lets several stay held. */
export function Holdable({ bench, plan, drawing, projection, object, label }: HoldableProps) {
  const view = useStore(bench.view);
  const { owner, kind, pinned } = object;
  const isHeld = view.selected === owner || view.also.includes(owner);
  const shapes = drawing.shapes.filter((shape) => shape.owner === owner);
  const words = `${object.name}${kind === object.name ? "" : `, ${kind}`}${pinned ? ", pinned" : ""}, ${placeWords(object, plan, view.units)}`;
  return (
    <Steady
      on={[...shapes, projection, label?.text, label?.x, label?.y, isHeld, pinned, words]}
      draw={() => (
        // biome-ignore lint/a11y/useSemanticElements: a button element cannot stand inside a drawing
        <g
          class={`object ${kind}${isHeld ? " selected" : ""}${pinned ? " pinned" : ""}`}
          data-owner={owner}
          role="button"
          tabindex={0}
          aria-pressed={isHeld}
          aria-label={words}
          onFocus={() => bench.view.get().also.length === 0 && takeHold(bench, owner)}
        >
          <OwnerShapes shapes={shapes} projection={projection} />
          <NameLabel label={label} />
          {pinned && <Pin shapes={shapes} projection={projection} />}
        </g>
      )}
    />
  );
}
