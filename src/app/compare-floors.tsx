import type { Plan } from "../plan/index.ts";
import type { Drawing, Extent } from "../sheet/index.ts";
import { FloorLines, useFloors } from "./start-drawing.tsx";

export interface NamedPlan {
  readonly name: string;
  readonly plan: Plan;
}

/** Drawing pixels across; on the page each is as wide as its half. */
const ACROSS = 280;
/** A floor deeper than so much of its width is drawn as deep, and the width is not filled. */
const DEEPEST = 1.3;

/** Two floors beside each other at one scale. */
export function TwoFloors({ before, after }: { readonly before: NamedPlan; readonly after: NamedPlan }) {
  const floors = useFloors([before.plan, after.plan]);
  const extent = floors === null ? null : around(floors);
  return (
    <div class="compare-floors">
      {[before, after].map(({ name }, i) => (
        <figure key={i === 0 ? "before" : "after"}>
          <figcaption>
            <span class="quiet">{i === 0 ? "before" : "after"}</span> {name}
          </figcaption>
          <Floor name={name} floor={floors?.[i] ?? null} extent={extent} />
        </figure>
      ))}
    </div>
  );
}

interface FloorProps {
  readonly name: string;
  readonly floor: Drawing | null;
  readonly extent: Extent | null;
}

function Floor({ name, floor, extent }: FloorProps) {
  const shape =
    extent === null ? 1 : (extent.up1 - extent.up0) / Math.max(0.1, extent.across1 - extent.across0);
  const size = { width: ACROSS, height: Math.round(ACROSS * Math.min(DEEPEST, shape)) };
  return (
    <svg
      class="small-floor"
      viewBox={`0 0 ${size.width} ${size.height}`}
      role="img"
      aria-label={`Floor: ${name}`}
    >
      {floor !== null && extent !== null && <FloorLines drawing={floor} extent={extent} size={size} />}
    </svg>
  );
}

/** Each laid with its left near corner where the other's is, so that they differ by what moved. */
function around(floors: readonly Drawing[]): Extent {
  const extents = floors.map(({ extent }) => extent);
  return {
    across0: Math.min(...extents.map((each) => each.across0)),
    across1: Math.max(...extents.map((each) => each.across1)),
    up0: Math.min(...extents.map((each) => each.up0)),
    up1: Math.max(...extents.map((each) => each.up1)),
  };
}
