import type { Plan } from "../plan/index.ts";
import type { Bench, ShootPart } from "./bench.ts";
import { Step } from "./edge-job.tsx";
import { useStore } from "./hooks.ts";
import { chosenPerson } from "./layer-height.ts";
import { comparedOf, shootDeskOf } from "./shoot-desk.ts";
import { useComparison } from "./use-comparison.ts";

/** Two words of the job: what the camera saw, and what mends it. */
export function ShootSteps({ bench, plan }: { readonly bench: Bench; readonly plan: Plan }) {
  const shoot = useStore(shootDeskOf(bench).store);
  const view = useStore(bench.view);
  const { readingOf, readingQuality } = useStore(bench.results.store);
  const isStill = readingOf === plan && readingQuality === "fine";
  const { comparison } = useComparison(
    bench,
    isStill ? comparedOf(plan, chosenPerson(plan, view), shoot) : null,
  );
  const differing = comparison?.lines.filter(({ state }) => state === "differs").length ?? null;
  const many = shoot.desk.frames.length;
  const to = (part: ShootPart) => () => bench.view.update({ screen: "shoot", shoot: part });
  return (
    <>
      <Step number={4} word="shoot">
        {many === 0 ? "no frames yet" : `${many} ${many === 1 ? "frame" : "frames"}`}
        <button type="button" class="line" onClick={to("frames")}>
          test frames
        </button>
        <button type="button" class="line" onClick={to("readings")}>
          meter readings
        </button>
      </Step>
      <Step number={5} word="fix">
        {differing === null
          ? "by hand, and by the moves round the frame"
          : differing === 0
            ? "the frame is as planned"
            : `${differing} ${differing === 1 ? "thing differs" : "things differ"} in the frame`}
        {differing !== null && differing > 0 && (
          <button type="button" class="line" onClick={to("fix")}>
            what mends it
          </button>
        )}
      </Step>
    </>
  );
}
