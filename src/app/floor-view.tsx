import { useMemo, useState } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import { drawFloor, drawSide } from "../sheet/index.ts";
import type { Bench } from "./bench.ts";
import { DepthLayer } from "./depth-layer.tsx";
import { DrawingView } from "./drawing-view.tsx";
import { FLOOR, type PaperPoint, SIDE } from "./handling.ts";
import { useStore } from "./hooks.ts";
import { LayerBar } from "./layer-bar.tsx";
import { chosenPerson, layerHeight } from "./layer-height.ts";
import { DirectionLayer, PowerLayer } from "./layers.tsx";
import { listObjects } from "./objects.ts";
import { ProbeMark } from "./probe.tsx";
import type { Extent, Projection } from "./projection.ts";
import type { Results } from "./results.ts";
import { Unspoken } from "./unspoken.tsx";

interface FloorViewProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly results: Results;
}

/** The room from above with its two layers, and the probe that reads them. */
export function FloorView({ bench, plan, results }: FloorViewProps) {
  const view = useStore(bench.view);
  const height = layerHeight(plan, view);
  const drawing = useMemo(() => drawFloor(plan), [plan]);
  const [hover, setHover] = useState<PaperPoint | null>(null);
  const [pinned, setPinned] = useState<PaperPoint | null>(null);
  const { floorMap: map } = results;
  // Objects in their own places keep labels of lines off them.
  const keepClear = useMemo(
    () => listObjects(plan).map(({ position }) => ({ x: position[0], y: position[1] })),
    [plan],
  );
  return (
    <>
      <DrawingView
        bench={bench}
        plan={plan}
        sheet={FLOOR}
        drawing={drawing}
        beneath={(projection) =>
          map !== null && (
            <>
              {view.showDirection && <DirectionLayer map={map} projection={projection} />}
              {view.showPower && (
                <PowerLayer map={map} projection={projection} keepClear={keepClear} extent={drawing.extent} />
              )}
            </>
          )
        }
        above={(projection, size) =>
          map !== null && (
            <ProbeMark
              bench={bench}
              map={map}
              iso={plan.camera.iso}
              at={hover ?? pinned}
              pinned={pinned}
              onMove={setPinned}
              projection={projection}
              size={size}
            />
          )
        }
        onPoint={(point, pressed) => {
          if (pressed) setPinned(point);
          setHover(pressed ? null : point);
        }}
      />
      <LayerBar
        bench={bench}
        plan={plan}
        height={height}
        reference={map?.referenceFStops ?? null}
        onProbe={() => setPinned(pinned === null ? inFrontOf(plan) : null)}
        probing={pinned !== null}
      />
    </>
  );
}

/** The room from the side. */
export function SideView({ bench, plan }: FloorViewProps) {
  const view = useStore(bench.view);
  const height = view.showPower || view.showDirection ? layerHeight(plan, view) : null;
  const drawing = useMemo(() => drawSide(plan), [plan]);
  return (
    <DrawingView
      bench={bench}
      plan={plan}
      sheet={SIDE}
      drawing={drawing}
      beneath={(projection) => (
        <>
          {height !== null && <LayerHeight height={height} extent={drawing.extent} projection={projection} />}
          <DepthLayer plan={plan} person={chosenPerson(plan, view)} projection={projection} />
        </>
      )}
    />
  );
}

/** Where the floor's layers lie. */
function LayerHeight(props: { height: number; extent: Extent; projection: Projection }) {
  const a = props.projection.toScreen(props.extent.across0, props.height);
  const b = props.projection.toScreen(props.extent.across1, props.height);
  return (
    <Unspoken class="layer-height">
      <path d={`M${a.x + 4},${a.y}H${b.x - 4}`} />
      <text x={b.x - 6} y={b.y - 5}>
        layers
      </text>
    </Unspoken>
  );
}

/** Where the probe begins: half-way between the camera and the first person, else the middle of the room. */
function inFrontOf(plan: Plan): PaperPoint {
  const [cx, cy] = plan.camera.position;
  const person = plan.people[0];
  if (person !== undefined)
    return { across: (cx + person.position[0]) / 2, up: (cy + person.position[1]) / 2 };
  return { across: (plan.room?.width ?? 2 * cx) / 2, up: (plan.room?.depth ?? 2 * cy) / 2 };
}
