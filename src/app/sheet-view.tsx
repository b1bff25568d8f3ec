import { useMemo, useState } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import type { FieldMap } from "../reading/index.ts";
import { type Drawing, drawFloor, drawSide } from "../sheet/index.ts";
import type { Bench } from "./bench.ts";
import { DepthLayer, depthNoteBox } from "./depth-layer.tsx";
import { DrawingView, type Written } from "./drawing-view.tsx";
import type { PaperPoint, Sheet } from "./handling.ts";
import { HoldLayer } from "./hold-layer.tsx";
import { useStore } from "./hooks.ts";
import { LayerSwitches, PlaneField } from "./layer-bar.tsx";
import { bridgeOf, chosenPerson, layerAcross, layerHeight } from "./layer-height.ts";
import { LayerNotes, paperBox } from "./layer-notes.tsx";
import { DirectionLayer, OtherPlane, PowerLayer, usePowerLines } from "./layers.tsx";
import { type Cuts, cutsOf } from "./plane-cuts.ts";
import { ProbeMark } from "./probe.tsx";
import { shownPlan } from "./shown-plan.ts";
import { Store } from "./store.ts";

interface SheetViewProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly sheet: Sheet;
  readonly map: FieldMap | null;
}

const NO_CUTS: Cuts = [];

/** One sheet with its two layers, the probe that reads them, and a line of controls beneath. */
export function SheetView({ bench, plan, sheet, map }: SheetViewProps) {
  const view = useStore(bench.view);
  const isFloor = sheet.name === "Floor";
  const person = chosenPerson(plan, view);
  // a light whose share is not seen is drawn as one that is off
  const drawing = useMemo(() => {
    const shown = shownPlan(plan, view.alone);
    return isFloor ? drawFloor(shown) : drawSide(shown);
  }, [plan, view.alone, isFloor]);
  const cuts = useMemo(() => (map === null ? NO_CUTS : cutsOf(plan, map)), [plan, map]);
  const lines = usePowerLines(view.showPower ? map : null, cuts);
  const [hover] = useState(() => new Store<PaperPoint | null>(null));
  const [pinned, setPinned] = useState<PaperPoint | null>(null);
  const otherAt = isFloor ? layerAcross(plan, view) : layerHeight(plan, view);
  return (
    <>
      <DrawingView
        bench={bench}
        plan={plan}
        sheet={sheet}
        drawing={drawing}
        beneath={(projection) => (
          <>
            {map !== null && (
              <>
                {view.showDirection && <DirectionLayer map={map} cuts={cuts} projection={projection} />}
                {lines.length > 0 && <PowerLayer lines={lines} projection={projection} />}
                <OtherPlane
                  level={!isFloor}
                  at={otherAt}
                  paper={paperBox(drawing.extent, projection)}
                  projection={projection}
                />
              </>
            )}
            {!isFloor && <DepthLayer {...{ plan, person, projection }} units={view.units} />}
          </>
        )}
        above={(projection, around) => {
          const notes = (written: Written) =>
            map !== null && (
              <>
                <LayerNotes
                  {...{ sheet, drawing, cuts, lines, otherAt, projection, written }}
                  beneath={isFloor ? null : depthNoteBox({ plan, person, projection, units: view.units })}
                />
                <ProbeMark
                  {...{ bench, map, cuts, hover, pinned, projection }}
                  size={written.size}
                  iso={plan.camera.iso}
                  onMove={setPinned}
                />
              </>
            );
          if (!isFloor) return notes(around);
          return (
            <HoldLayer {...{ bench, plan, drawing, projection }} written={around}>
              {notes}
            </HoldLayer>
          );
        }}
        onPoint={(point, pressed) => {
          if (pressed) setPinned(point);
          hover.set(pressed ? null : point);
        }}
      />
      <div class="layer-bar">
        {isFloor && <LayerSwitches bench={bench} plan={plan} map={map} />}
        {(view.showPower || view.showDirection) && (
          <>
            <PlaneField bench={bench} plan={plan} sheet={sheet} />
            <button
              type="button"
              aria-label={isFloor ? "probe" : `probe, ${sheet.name}`}
              aria-pressed={pinned !== null}
              onClick={() => setPinned(pinned === null ? inFrontOf(plan, person, sheet, drawing) : null)}
            >
              probe
            </button>
          </>
        )}
        {/* one line: the way back to the person takes its place, and the drawings keep their size */}
        {!isFloor && view.showDirection && view.layerAcross_m === null && (
          <p class="quiet">short tick: out of the paper or all round</p>
        )}
      </div>
    </>
  );
}

/** Where the probe begins: half-way between the camera and the chosen person, else the middle of the sheet. */
function inFrontOf(plan: Plan, person: number, { across, up }: Sheet, { extent }: Drawing): PaperPoint {
  const bridge = bridgeOf(plan, person);
  if (bridge === null)
    return { across: (extent.across0 + extent.across1) / 2, up: (extent.up0 + extent.up1) / 2 };
  const { position } = plan.camera;
  return { across: (position[across] + bridge[across]) / 2, up: (position[up] + bridge[up]) / 2 };
}
