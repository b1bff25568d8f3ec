import { useEffect, useState } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import { type Drawing, drawFloor } from "../sheet/index.ts";
import { projectionOf } from "./projection.ts";
import { pathOf } from "./shapes.tsx";

const drawn = new WeakMap<Plan, Drawing>();
/** One after the other, when nothing else is to be done: a person's outline takes some milliseconds. */
let line: Promise<void> = Promise.resolve();

function drawInTurn(plan: Plan, wanted: () => boolean): Promise<Drawing | null> {
  const turn = line.then(
    () =>
      new Promise<void>((resolve) => {
        setTimeout(() => {
          if (wanted() && !drawn.has(plan)) drawn.set(plan, drawFloor(plan));
          resolve();
        }, 0);
      }),
  );
  line = turn;
  return turn.then(() => drawn.get(plan) ?? null);
}

/** A plan's floor at a small true scale, its outlines alone. */
export function SmallFloor({ plan, size }: { plan: Plan | null; size: number }) {
  const [drawing, setDrawing] = useState<Drawing | null>(plan === null ? null : (drawn.get(plan) ?? null));
  useEffect(() => {
    if (plan === null) return;
    let isWanted = true;
    void drawInTurn(plan, () => isWanted).then((made) => isWanted && setDrawing(made));
    return () => {
      isWanted = false;
    };
  }, [plan]);
  const box = { width: size, height: size };
  if (drawing === null) return <svg class="small-floor" {...box} aria-hidden="true" />;
  const { across0, across1, up0, up1 } = drawing.extent;
  const scale = (size - 4) / Math.max(across1 - across0, up1 - up0, 0.1);
  const margin = {
    left: (size - (across1 - across0) * scale) / 2,
    right: 0,
    top: (size - (up1 - up0) * scale) / 2,
    bottom: 0,
  };
  const projection = projectionOf(
    {
      extent: { across0, across1, up0, up1 },
      size: box,
      margin: { ...margin, right: margin.left, bottom: margin.top },
    },
    null,
  );
  return (
    <svg class="small-floor" {...box} aria-hidden="true">
      {drawing.shapes
        .filter((shape) => shape.kind !== "field")
        .map((shape, index) => (
          <path key={index} class={`${shape.kind}${shape.off ? " off" : ""}`} d={pathOf(shape, projection)} />
        ))}
    </svg>
  );
}
