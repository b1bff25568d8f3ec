import { useEffect, useState } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import { type Drawing, drawFloor, type Extent } from "../sheet/index.ts";
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

/** The floors of plans, once all of them are drawn; null until then. */
export function useFloors(plans: readonly Plan[]): readonly Drawing[] | null {
  const made = () => {
    const floors = plans.map((plan) => drawn.get(plan));
    return floors.every((floor) => floor !== undefined) ? floors : null;
  };
  const [floors, setFloors] = useState(made);
  useEffect(() => {
    let isWanted = true;
    setFloors(made);
    void Promise.all(plans.map((plan) => drawInTurn(plan, () => isWanted))).then(
      () => isWanted && setFloors(made),
    );
    return () => {
      isWanted = false;
    };
  }, plans);
  return floors;
}

/** A plan's floor at a small true scale, its outlines alone. */
export function SmallFloor({ plan, size }: { plan: Plan | null; size: number }) {
  const floors = useFloors(plan === null ? [] : [plan]);
  const box = { width: size, height: size };
  const [drawing] = floors ?? [];
  if (drawing === undefined) return <svg class="small-floor" {...box} aria-hidden="true" />;
  return (
    <svg class="small-floor" {...box} aria-hidden="true">
      <FloorLines drawing={drawing} extent={drawing.extent} size={box} />
    </svg>
  );
}

/** Half a line's width is never cut. */
const EDGE = 2;

interface FloorLinesProps {
  readonly drawing: Drawing;
  /** what of the paper fills the box */
  readonly extent: Extent;
  readonly size: { readonly width: number; readonly height: number };
}

export function FloorLines({ drawing, extent, size }: FloorLinesProps) {
  const { across0, across1, up0, up1 } = extent;
  const across = Math.max(0.1, across1 - across0);
  const up = Math.max(0.1, up1 - up0);
  const scale = Math.min((size.width - 2 * EDGE) / across, (size.height - 2 * EDGE) / up);
  // its corner where the words beside and above begin
  const margin = {
    left: EDGE,
    right: size.width - across * scale - EDGE,
    top: EDGE,
    bottom: size.height - up * scale - EDGE,
  };
  const projection = projectionOf({ extent: { across0, across1, up0, up1 }, size, margin }, null);
  // the room is filled, and everything stands on it
  const isRoom = ({ kind }: { kind: string }) => Number(kind === "room");
  return (
    <>
      {drawing.shapes
        .filter((shape) => shape.kind !== "field")
        .sort((a, b) => isRoom(b) - isRoom(a))
        .map((shape, index) => (
          <path key={index} class={`${shape.kind}${shape.off ? " off" : ""}`} d={pathOf(shape, projection)} />
        ))}
    </>
  );
}
