import { aimOnPaper, type Sheet } from "./handling.ts";
import type { PlanObject } from "./objects.ts";
import type { Projection } from "./projection.ts";
import { Unspoken } from "./unspoken.tsx";

/** How far from the object's middle the handle of its aim lies, pixels. */
const HANDLE_PX = 58;

interface AimHandleProps {
  readonly sheet: Sheet;
  readonly projection: Projection;
  readonly object: PlanObject;
}

/** The handle by which the held object's aim is turned; keys on the object do the same. */
export function AimHandle({ sheet, projection, object }: AimHandleProps) {
  if (!object.turns || object.pinned || (sheet.up === 2 && !object.lifts)) return null;
  const middle = projection.toScreen(object.position[sheet.across], object.position[sheet.up]);
  const aim = aimOnPaper(object, sheet);
  const seen = Math.hypot(aim.across, aim.up);
  // An aim that points at the reader has no direction on the paper: the handle waits to the right.
  const [ux, uy] = seen < 0.05 ? [1, 0] : [aim.across / seen, -aim.up / seen];
  const x = middle.x + ux * HANDLE_PX;
  const y = middle.y + uy * HANDLE_PX;
  return (
    <Unspoken class="aim" data-aim={object.owner}>
      <path d={`M${middle.x},${middle.y}L${x},${y}`} />
      <circle class="reach" cx={x} cy={y} r={14} />
      <circle class="knob" cx={x} cy={y} r={5} />
      <title>turn {object.name}; Alt turns freely</title>
    </Unspoken>
  );
}
