import { useMemo } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import { type PictureRegion, usedPart, WHOLE_PICTURE } from "../reading/index.ts";
import { sortCrops } from "./frame-crops.ts";
import type { FrameLook } from "./frame-look.ts";

interface GuidesProps {
  readonly plan: Plan;
  readonly person: number;
  readonly look: FrameLook;
}

/** Lines over the picture: thirds, the part that the print takes, named crops. */
export function FrameGuides({ plan, person, look }: GuidesProps) {
  const used = look.finalUse ? usedPart(plan) : WHOLE_PICTURE;
  const crops = useMemo(() => (look.crops ? sortCrops(plan, person).within : []), [plan, person, look.crops]);
  const thirds = [1 / 3, 2 / 3];
  const across = (share: number) => used.left + share * (used.right - used.left);
  const down = (share: number) => used.top + share * (used.bottom - used.top);
  return (
    <div class="guides">
      <svg viewBox="0 0 1 1" preserveAspectRatio="none" aria-hidden="true">
        {look.finalUse && plan.print !== null && (
          <>
            <path class="unused" fill-rule="evenodd" d={`M0,0H1V1H0Z${boxPath(used)}`} />
            <Line d={boxPath(used)} />
          </>
        )}
        {look.thirds && (
          <Line
            d={thirds
              .map((t) => `M${across(t)},${used.top}V${used.bottom}M${used.left},${down(t)}H${used.right}`)
              .join("")}
          />
        )}
        {crops.map(({ crop, box }) => (
          <Line key={crop} d={boxPath(box)} />
        ))}
      </svg>
      {crops.map(({ crop, box }) => (
        <span
          key={crop}
          aria-hidden="true"
          style={{
            left: `${100 * Math.max(0, box.left)}%`,
            bottom: `${100 * (1 - Math.min(1, box.bottom))}%`,
          }}
        >
          {crop}
        </span>
      ))}
    </div>
  );
}

/** Light with a dark edge: seen on every tone. */
function Line({ d }: { d: string }) {
  return (
    <>
      <path class="casing" d={d} />
      <path class="guide" d={d} />
    </>
  );
}

function boxPath({ left, top, right, bottom }: PictureRegion): string {
  return `M${left},${top}H${right}V${bottom}H${left}Z`;
}
