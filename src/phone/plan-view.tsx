import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import type { LengthUnits } from "../units/index.ts";
import type { LivePlan } from "../workbench/index.ts";
import { sheetAddress } from "./client.ts";
import { LARGEST, pinchable, zoomedBy } from "./zoom.ts";

interface PlanProps {
  readonly plan: LivePlan;
  readonly units: LengthUnits;
  readonly choose: (units: LengthUnits) => void;
}

/** The drawings at true scale, larger with two fingers; the sheet to print or keep. Side by side where there is room. */
export function PlanView({ plan, units, choose }: PlanProps) {
  const [shown, show] = useState<"floor" | "side">("floor");
  return (
    <>
      <h2 class="visually-hidden">Plan</h2>
      <fieldset class="either which">
        <legend class="visually-hidden">drawing</legend>
        {(["floor", "side"] as const).map((each) => (
          <button key={each} type="button" aria-pressed={shown === each} onClick={() => show(each)}>
            {each}
          </button>
        ))}
      </fieldset>
      <div class="drawings" data-shown={shown}>
        <Drawing svg={plan.floor} name="the set from above" />
        <Drawing svg={plan.side} name="the set from the right" />
      </div>
      <p class="foot">
        <a class="go" href={sheetAddress(units, navigator.language)} target="_blank" rel="noopener">
          the whole sheet as PDF
        </a>
        <span class="quiet">It is computed finely first: that takes some seconds.</span>
      </p>
      <fieldset class="either">
        <legend>lengths in</legend>
        <button type="button" aria-pressed={units === "metric"} onClick={() => choose("metric")}>
          metres
        </button>
        <button type="button" aria-pressed={units === "feet"} onClick={() => choose("feet")}>
          feet
        </button>
      </fieldset>
    </>
  );
}

/** Width over height, as the document says it. */
function shapeOf(svg: string): number {
  const [, width, height] = /width="([\d.]+)mm"\s+height="([\d.]+)mm"/.exec(svg) ?? [];
  return Number(width) / Number(height) || 1;
}

function Drawing({ svg, name }: { svg: string; name: string }) {
  const [zoom, setZoom] = useState(1);
  const area = useRef<HTMLElement>(null);
  const source = useMemo(() => `data:image/svg+xml,${encodeURIComponent(svg)}`, [svg]);
  useEffect(() => (area.current === null ? undefined : pinchable(area.current, setZoom)), []);
  // whole on the screen until it is made larger
  const width = `calc(${zoom} * min(100%, ${shapeOf(svg)} * var(--paper-height)))`;
  return (
    <figure class="drawing">
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keys */}
      <section class="paper" ref={area} tabIndex={0} aria-label={`${name}, scrolls`}>
        <img
          src={source}
          alt={`${name}, to scale; every place is in the list under “place”`}
          style={{ width }}
        />
      </section>
      <figcaption class="either">
        <button type="button" disabled={zoom <= 1} onClick={() => setZoom(zoomedBy(zoom, 1 / 1.5))}>
          smaller<span class="visually-hidden">, {name}</span>
        </button>
        <button type="button" disabled={zoom >= LARGEST} onClick={() => setZoom(zoomedBy(zoom, 1.5))}>
          larger<span class="visually-hidden">, {name}</span>
        </button>
      </figcaption>
    </figure>
  );
}
