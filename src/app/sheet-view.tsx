import { useMemo, useState } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import type { FieldMap } from "../reading/index.ts";
import { type Drawing, drawFloor, drawSide } from "../sheet/index.ts";
import type { Bench } from "./bench.ts";
import { DepthLayer } from "./depth-layer.tsx";
import { DrawingView } from "./drawing-view.tsx";
import type { PaperPoint, Sheet } from "./handling.ts";
import { useStore } from "./hooks.ts";
import { type Box, numberBox, placeNames } from "./label-places.ts";
import { LayerSwitches, PlaneField } from "./layer-bar.tsx";
import { bridgeOf, chosenPerson, layerAcross, layerHeight } from "./layer-height.ts";
import { DirectionLayer, OtherPlane, PowerLayer, PowerNumbers, usePowerLines } from "./layers.tsx";
import { nameBox } from "./line-labels.ts";
import { findObject } from "./objects.ts";
import { type Cuts, cutsOf } from "./plane-cuts.ts";
import { ProbeMark } from "./probe.tsx";
import type { Projection } from "./projection.ts";
import { Store } from "./store.ts";
import { placeTapes } from "./tapes.tsx";

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
  const drawing = useMemo(() => (isFloor ? drawFloor(plan) : drawSide(plan)), [plan, isFloor]);
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
                <PowerLayer lines={lines} projection={projection} />
                <OtherPlane
                  of={isFloor ? "Side" : "Floor"}
                  at={otherAt}
                  paper={boxOf(drawing.extent, projection)}
                  projection={projection}
                />
              </>
            )}
            {!isFloor && <DepthLayer plan={plan} person={chosenPerson(plan, view)} projection={projection} />}
          </>
        )}
        above={(projection, size) =>
          map !== null && (
            <>
              <Numbers {...{ bench, plan, sheet, drawing, lines, projection, size }} />
              <ProbeMark
                {...{ bench, map, cuts, hover, pinned, projection, size }}
                iso={plan.camera.iso}
                onMove={setPinned}
              />
            </>
          )
        }
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
              onClick={() =>
                setPinned(pinned === null ? inFrontOf(plan, chosenPerson(plan, view), sheet, drawing) : null)
              }
            >
              probe
            </button>
          </>
        )}
      </div>
    </>
  );
}

/** The numbers of the lines, clear of objects, their names and the tapes. */
function Numbers(props: {
  bench: Bench;
  plan: Plan;
  sheet: Sheet;
  drawing: Drawing;
  lines: Parameters<typeof PowerNumbers>[0]["lines"];
  projection: Projection;
  size: { width: number; height: number };
}) {
  const { bench, plan, sheet, drawing, lines, projection, size } = props;
  const view = useStore(bench.view);
  const { selected, units } = view;
  const person = chosenPerson(plan, view);
  const places = useMemo(() => {
    const paper = boxOf(drawing.extent, projection);
    const object = findObject(plan, selected);
    const tapes = object === null ? [] : placeTapes({ plan, sheet, object, projection, units, person });
    const numbers = tapes.map(({ at, text, isUpright }) => numberBox(at, text, isUpright));
    const names = placeNames(drawing, projection, { ...paper, x1: size.width }, numbers);
    const inside = {
      x0: Math.max(paper.x0, 0),
      y0: Math.max(paper.y0, 0),
      x1: Math.min(paper.x1, size.width),
      y1: Math.min(paper.y1, size.height),
    };
    // a backdrop is as large as the set: numbers may lie on it
    const things = drawing.labels.filter(({ owner }) => owner !== "backdrop");
    return {
      inside,
      occupied: [...numbers, ...things.map(({ clear }) => boxOf(clear, projection)), ...names.map(nameBox)],
    };
  }, [plan, sheet, drawing, projection, size, selected, units, person]);
  return <PowerNumbers lines={lines} projection={projection} {...places} />;
}

function boxOf(extent: Drawing["extent"], projection: Projection): Box {
  const a = projection.toScreen(extent.across0, extent.up1);
  const b = projection.toScreen(extent.across1, extent.up0);
  return { x0: a.x, y0: a.y, x1: b.x, y1: b.y };
}

/** Where the probe begins: half-way between the camera and the chosen person, else the middle of the sheet. */
function inFrontOf(plan: Plan, person: number, { across, up }: Sheet, { extent }: Drawing): PaperPoint {
  const bridge = bridgeOf(plan, person);
  if (bridge === null)
    return { across: (extent.across0 + extent.across1) / 2, up: (extent.up0 + extent.up1) / 2 };
  const { position } = plan.camera;
  return { across: (position[across] + bridge[across]) / 2, up: (position[up] + bridge[up]) / 2 };
}
