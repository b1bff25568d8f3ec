import { useEffect } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import { formatFStops, formatShutter } from "../units/index.ts";
import type { Bench } from "./bench.ts";
import { ExposureFields } from "./exposure-fields.tsx";
import { FrameView } from "./frame-view.tsx";
import { useSize, useStore } from "./hooks.ts";
import { ReadingLine } from "./reading-line.tsx";
import type { Results } from "./results.ts";
import { headroomWords, signedStops } from "./wording.ts";

interface FramePanelProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly results: Results;
}

/** What the camera sees, exposed as set, as a print with a white border and its exposure line. */
export function FramePanel({ bench, plan, results }: FramePanelProps) {
  const view = useStore(bench.view);
  const [box, size] = useSize<HTMLDivElement>();
  const { camera } = plan;
  const { width, height } = camera.sensor;
  const aspect = camera.orientation === "portrait" ? height / width : width / height;
  useEffect(() => {
    if (size !== null) bench.results.setFrameWidth(size.width * Math.min(2, devicePixelRatio));
  }, [bench, size]);
  const line = `${rounded(camera.focalLength)} mm, ${formatFStops(camera.fNumber)}, ${formatShutter(camera.shutter)}, ISO ${rounded(camera.iso)}`;
  const state = results.reading === null ? "" : `; ${words(results)}`;
  return (
    <section class="frame-panel" aria-labelledby="frame-title">
      <h2 id="frame-title" class="visually-hidden">
        Frame
      </h2>
      <div class="print-row">
        <figure class={camera.orientation === "portrait" ? "framed upright" : "framed level"}>
          <div ref={box}>
            <FrameView
              picture={results.frame}
              aspect={aspect}
              showClipped={view.look.clipping}
              label={`The picture as the camera would take it: ${line}${state}`}
            />
          </div>
          <figcaption>
            <span>{line}</span>
            <button
              type="button"
              aria-pressed={view.look.clipping}
              onClick={() => bench.view.update({ look: { ...view.look, clipping: !view.look.clipping } })}
            >
              clipping
            </button>
          </figcaption>
        </figure>
        <div class={camera.orientation === "portrait" ? "beside-print" : "beside-print across"}>
          <ExposureFields bench={bench} camera={camera} />
          {results.reading !== null && (
            <dl class="meter-column">
              <ReadingLine term="headroom" {...headroomWords(results.reading.camera)} />
              {results.reading.camera.backgroundStops !== null && (
                <ReadingLine
                  term="background"
                  strong={`${signedStops(results.reading.camera.backgroundStops)} stops`}
                  rest="background"
                  detail="against the lit cheek"
                />
              )}
            </dl>
          )}
          {isDark(plan) && <p class="quiet">No light is on: the picture is black.</p>}
          {view.look.clipping && (
            <p class="quiet">
              <span class="clip-sample" /> clipped here
            </p>
          )}
          <FrameProgress done={results.frameDone} />
        </div>
      </div>
    </section>
  );
}

function isDark(plan: Plan): boolean {
  return plan.ambient.lux === 0 && !plan.lights.some((light) => light.on);
}

function words(results: Results): string {
  if (results.reading === null) return "";
  const { strong, rest } = headroomWords(results.reading.camera);
  return `${strong} ${rest}`;
}

function rounded(value: number): number {
  return Number(value.toFixed(1));
}

/** Only for frames that take longer than a glance: shown from the first report on, without moving anything. */
function FrameProgress({ done }: { done: number | null }) {
  return (
    <p class="quiet refining" data-on={done !== null}>
      picture {done === null ? "" : `${Math.round(done * 100)} %`}
    </p>
  );
}
