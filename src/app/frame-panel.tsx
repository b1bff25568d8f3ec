import { useEffect, useState } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import { frameAspect, type PlanReading } from "../reading/index.ts";
import { formatFStops, formatShutter } from "../units/index.ts";
import type { Bench } from "./bench.ts";
import { ExposureFields } from "./exposure-fields.tsx";
import { rounded } from "./fields.tsx";
import { useEyes } from "./frame-eyes.ts";
import { FrameGuides } from "./frame-guides.tsx";
import { OverlaySettings, OverlayWords } from "./frame-overlays.tsx";
import { FrameSave } from "./frame-save.tsx";
import { FrameView } from "./frame-view.tsx";
import { useSize, useStore } from "./hooks.ts";
import { chosenPerson } from "./layer-height.ts";
import { ReadingLine } from "./reading-line.tsx";
import type { Results } from "./results.ts";
import { headroomWords, signedStops } from "./wording.ts";

interface FramePanelProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly results: Results;
}

/** What the camera sees, exposed as set, as a print with a white border; under it the ways to look at it. */
export function FramePanel({ bench, plan, results }: FramePanelProps) {
  const view = useStore(bench.view);
  const [box, size] = useSize<HTMLDivElement>();
  const [isSaving, setSaving] = useState(false);
  const [isNear, setNear] = useState(false);
  const { camera } = plan;
  const person = chosenPerson(plan, view);
  const width_px = size === null ? 0 : Math.round(size.width * Math.min(2, devicePixelRatio));
  const eyes = useEyes(bench, plan, person, isNear, width_px);
  useEscape(isNear, () => setNear(false));
  useEffect(() => {
    if (width_px > 0) bench.results.setFrameWidth(width_px);
  }, [bench, width_px]);

  const line = `${rounded(camera.focalLength, 1)} mm, ${formatFStops(camera.fNumber)}, ${formatShutter(camera.shutter)}, ISO ${rounded(camera.iso, 1)}`;
  const picture = isNear ? eyes.picture : results.frame;
  const shape = camera.orientation === "portrait" ? "upright" : "level";
  return (
    <section class="frame-panel" aria-labelledby="frame-title">
      <h2 id="frame-title" class="visually-hidden">
        Frame
      </h2>
      <div class={`print-row ${shape}`}>
        <div class="print-column">
          <figure class={`framed ${shape}`}>
            <div ref={box}>
              <FrameView
                picture={picture}
                aspect={frameAspect(camera)}
                look={view.look}
                label={isNear ? `The eyes, larger: ${line}` : pictureLabel(line, results)}
              >
                {!isNear && <FrameGuides plan={plan} person={person} look={view.look} />}
              </FrameView>
            </div>
            <figcaption>
              <span>{line}</span>
              <FrameProgress done={results.frameDone} />
            </figcaption>
          </figure>
          <OverlayWords bench={bench} look={view.look}>
            <button
              type="button"
              aria-pressed={isNear}
              disabled={plan.people.length === 0}
              onClick={() => setNear(!isNear)}
            >
              into the eyes
            </button>
            <button type="button" aria-expanded={isSaving} onClick={() => setSaving(!isSaving)}>
              save picture
            </button>
          </OverlayWords>
          <OverlaySettings bench={bench} plan={plan} person={person} look={view.look} picture={picture} />
          {isSaving && <FrameSave bench={bench} plan={plan} look={view.look} />}
          {eyes.isOutside && <p class="quiet">The eyes are outside the picture.</p>}
        </div>
        <div class="under-print">
          <ExposureFields bench={bench} camera={camera} />
          {results.reading !== null && <PrintReadings camera={results.reading.camera} />}
          {isDark(plan) && <p class="quiet">No light is on: the picture is black.</p>}
        </div>
      </div>
    </section>
  );
}

/** What the light does to the picture: room to clipping, the background's tone. */
function PrintReadings({ camera }: { camera: PlanReading["camera"] }) {
  const background = camera.backgroundStops;
  return (
    <dl class="meter-column">
      <ReadingLine term="headroom" {...headroomWords(camera)} />
      {background !== null && (
        <ReadingLine
          term="background"
          strong={`${signedStops(background)} stops`}
          rest="background"
          detail="against the lit cheek"
        />
      )}
    </dl>
  );
}

function useEscape(isOn: boolean, leave: () => void): void {
  useEffect(() => {
    if (!isOn) return;
    const onKey = (event: KeyboardEvent) => {
      // in a field, Escape gives the old entry back
      if (event.key === "Escape" && !(event.target instanceof HTMLInputElement)) leave();
    };
    addEventListener("keydown", onKey);
    return () => removeEventListener("keydown", onKey);
  }, [isOn]);
}

function isDark(plan: Plan): boolean {
  return plan.ambient.lux === 0 && !plan.lights.some((light) => light.on);
}

function pictureLabel(line: string, { reading }: Results): string {
  const label = `The picture as the camera would take it: ${line}`;
  if (reading === null) return label;
  const { strong, rest } = headroomWords(reading.camera);
  return `${label}; ${strong} ${rest}`;
}

/** Only for frames that take longer than a glance: shown from the first report on, without moving anything. */
function FrameProgress({ done }: { done: number | null }) {
  return (
    <span class="quiet refining" data-on={done !== null}>
      {done === null ? "" : `${Math.round(done * 100)} %`}
    </span>
  );
}
