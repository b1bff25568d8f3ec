import type { Plan } from "../plan/index.ts";
import type { Bench } from "./bench.ts";
import { FLOOR, SIDE } from "./handling.ts";
import type { Results } from "./results.ts";
import { SheetView } from "./sheet-view.tsx";

interface RoomViewProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly results: Results;
}

/** The room from above. */
export function FloorView({ bench, plan, results }: RoomViewProps) {
  return <SheetView bench={bench} plan={plan} sheet={FLOOR} map={results.floorMap} />;
}

/** The room from the side. */
export function SideView({ bench, plan, results }: RoomViewProps) {
  return <SheetView bench={bench} plan={plan} sheet={SIDE} map={results.sideMap} />;
}
