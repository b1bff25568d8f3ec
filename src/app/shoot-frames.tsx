import { useEffect, useMemo, useRef } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import type { Bench } from "./bench.ts";
import { Either } from "./edge-settings.tsx";
import { useStore } from "./hooks.ts";
import { useKept } from "./kept.ts";
import { chosenPerson } from "./layer-height.ts";
import { LookAsBrief } from "./shoot-brief.tsx";
import { Causes } from "./shoot-causes.tsx";
import { Choosing } from "./shoot-choosing.tsx";
import { driftById } from "./shoot-compare.ts";
import { comparedOf, type ShootDesk, shootDeskOf, shownFrame } from "./shoot-desk.ts";
import { Intake } from "./shoot-intake.tsx";
import { ComparedNumbers, SeenNumbers } from "./shoot-numbers.tsx";
import { Pair } from "./shoot-pair.tsx";
import { Strip, Waiting } from "./shoot-strip.tsx";
import { TakeOut } from "./shoot-take-out.tsx";
import { faceOf } from "./shoot-words.ts";
import { useComparison } from "./use-comparison.ts";
import { capital } from "./wording.ts";

/** Frames as they come, the one in sight beside the plan's own picture, and what lies between the two. */
export function Frames({ bench, plan }: { readonly bench: Bench; readonly plan: Plan }) {
  const desk = shootDeskOf(bench);
  const shoot = useStore(desk.store);
  const view = useStore(bench.view);
  const results = useStore(bench.results.store);
  const [marks, setMarks] = useKept("shoot.marks", "yes");
  const person = chosenPerson(plan, view);
  const { frames } = shoot.desk;
  const frame = shownFrame(shoot);
  const face = frame === null ? null : faceOf(frame, shoot.faces);
  const compared = comparedOf(plan, person, shoot);
  const { comparison, failure } = useComparison(bench, compared);
  useSaid(bench, frame?.id ?? null, comparison?.summary ?? null);
  return (
    <div class="shoot-frames">
      <List desk={desk} />
      <div class="shoot-middle">
        <section class="shoot-picture" aria-labelledby="frame-title">
          <h2 id="frame-title" class="visually-hidden">
            Frame beside plan
          </h2>
          <Pair
            {...{ bench, plan, person, results, frame, face }}
            faceIndex={frame === null ? 0 : (shoot.faces[frame.id] ?? 0)}
            marks={marks === "yes"}
            hasDesk={shoot.reach !== "none"}
            chooseFace={(index) => frame !== null && desk.chooseFace(frame.id, index)}
          />
          <div class="overlay-words">
            <Either
              text="marks"
              on={marks === "yes"}
              choose={() => setMarks(marks === "yes" ? "no" : "yes")}
            />
            {frame !== null && <TakeOut key={frame.id} {...{ bench, frame }} />}
            {marks === "yes" && <MarksLegend hasCheeks={face !== null} />}
          </div>
        </section>
        {frame !== null && <Choosing {...{ bench, frame, face, frames }} faces={shoot.faces} />}
      </div>
      {frame !== null && (
        <section class="shoot-numbers" aria-labelledby="between-title">
          <h2 id="between-title" class="shoot-summary">
            {comparison === null ? lacking(face !== null, plan, failure) : capital(comparison.summary)}
          </h2>
          {comparison !== null && <ComparedNumbers comparison={comparison} />}
          {comparison === null && face !== null && <SeenNumbers face={face} />}
          {comparison !== null && <Causes causes={comparison.causes} isLedTo={view.shoot === "fix"} />}
          {face !== null && <LookAsBrief key={frame.id} {...{ bench, plan, person, frame, face }} />}
        </section>
      )}
    </div>
  );
}

function List({ desk }: { desk: ShootDesk }) {
  const shoot = useStore(desk.store);
  const { frames, pending } = shoot.desk;
  const drift = useMemo(() => driftById(frames), [frames]);
  const shown = shownFrame(shoot);
  const isFollowing = shoot.chosen === null;
  return (
    <div class="shoot-list">
      <Intake desk={desk} state={shoot} />
      {frames.length > 0 && (
        <div class="section-head">
          <h2>
            {frames.length} {frames.length === 1 ? "frame" : "frames"}
          </h2>
          <Either
            text="follow the newest"
            on={isFollowing}
            choose={() => desk.choose(isFollowing ? (shown?.id ?? null) : null)}
          />
        </div>
      )}
      <Waiting desk={desk} pending={pending} handed={shoot.handed} />
      <Strip {...{ desk, frames, drift, shown }} faces={shoot.faces} />
    </div>
  );
}

function MarksLegend({ hasCheeks }: { hasCheeks: boolean }) {
  return (
    <span class="quiet">
      <i class="sample-arrow" /> where the light comes from, as the camera sees it
      {hasCheeks && "; at the cheeks, stops from clipping"}
    </span>
  );
}

function lacking(hasFace: boolean, plan: Plan, failure: string | null): string {
  if (!hasFace) return "No face was found: the tones are read all the same";
  if (plan.people.length === 0) return "Nobody stands in the plan: the frame is read by itself";
  return failure === null ? "Being put beside the plan" : `It could not be put beside the plan: ${failure}`;
}

/** A frame that comes into sight is said once, when it has been compared. */
function useSaid(bench: Bench, id: string | null, summary: string | null): void {
  const said = useRef<string | null>(null);
  useEffect(() => {
    if (id === null || summary === null || said.current === id) return;
    said.current = id;
    bench.say.set(summary);
  }, [bench, id, summary]);
}
