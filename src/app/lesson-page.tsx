import { useEffect, useRef, useState } from "preact/hooks";
import { type Bench, makeEdit, putField } from "./bench.ts";
import { UnitsAndTheme } from "./edge-settings.tsx";
import { PLAIN_LOOK } from "./frame-look.ts";
import { FrameView } from "./frame-view.tsx";
import { FLOOR, SIDE } from "./handling.ts";
import { useSize } from "./hooks.ts";
import { useLesson } from "./lesson-bench.ts";
import { factsOf, type Seen, TASKS } from "./lesson-facts.ts";
import { carry, lessonPlan, type Topic } from "./lesson-plan.ts";
import { LessonText } from "./lesson-text.tsx";
import { useEscape } from "./page-head.tsx";
import { SheetView } from "./sheet-view.tsx";

/** Direction or power, explained on one page with a live small plan. */
export function LessonPage({ bench, topic }: { bench: Bench; topic: Topic }) {
  const { lesson, plan, view, results, seen, first } = useLesson(bench, topic);
  const title = useRef<HTMLHeadingElement>(null);
  const back = () => bench.view.update({ screen: "plan" });
  useEffect(() => title.current?.focus(), []);
  useEscape(back);
  return (
    <main class="lesson">
      <header class="lesson-head">
        <h1 ref={title} tabIndex={-1}>
          {topic === "direction" ? "Direction" : "Power"}
        </h1>
        <button type="button" onClick={back}>
          back to the plan
        </button>
        <button
          type="button"
          onClick={() => bench.view.update({ screen: topic === "direction" ? "power" : "direction" })}
        >
          {topic === "direction" ? "on to power" : "on to direction"}
        </button>
        <div class="start-settings">
          <UnitsAndTheme bench={bench} />
        </div>
      </header>
      <article class="lesson-text">
        <LessonText topic={topic} />
      </article>
      <section class="lesson-plan" aria-label="A small plan to try it on">
        <div class="drawings">
          <SheetView bench={lesson} plan={plan} sheet={FLOOR} map={results.floorMap} />
          <SheetView bench={lesson} plan={plan} sheet={SIDE} map={results.sideMap} />
        </div>
      </section>
      <section class="lesson-seen" aria-label="What it does">
        <Picture bench={lesson} plan={plan} picture={results.frame} />
        <Carry bench={lesson} topic={topic} follows={plan.people[0]?.head.follows === "camera"} />
        <Facts topic={topic} seen={seen} first={first} units={view.units} />
        <Tasks bench={bench} topic={topic} seen={seen} first={first} />
      </section>
    </main>
  );
}

type Lesson = ReturnType<typeof useLesson>;

function Picture(props: { bench: Bench; plan: Lesson["plan"]; picture: Lesson["results"]["frame"] }) {
  const { bench, plan, picture } = props;
  const [box, size] = useSize<HTMLDivElement>();
  useEffect(() => {
    if (size !== null) bench.results.setFrameWidth(size.width * Math.min(2, devicePixelRatio));
  }, [bench, size]);
  const { width, height } = plan.camera.sensor;
  return (
    <div ref={box} class="lesson-frame">
      <FrameView
        picture={picture}
        aspect={plan.camera.orientation === "portrait" ? height / width : width / height}
        look={PLAIN_LOOK}
        label="The sitter as the camera would take it"
      />
    </div>
  );
}

/** One stop by distance. */
const STOP = Math.SQRT2;
const STEP_DEG = 10;

/** The steps that the text speaks of, each by a button: hand, finger and keyboard. */
function Carry({ bench, topic, follows }: { bench: Bench; topic: Topic; follows: boolean }) {
  const [why, setWhy] = useState<string | null>(null);
  const move = (text: string, by: Parameters<typeof carry>[2]) => (
    <button
      type="button"
      onClick={() => {
        const edit = carry(bench.session.get().plan, `light ${text}`, by);
        setWhy(edit && makeEdit(bench, edit));
      }}
    >
      {text}
    </button>
  );
  return (
    <fieldset class="lesson-moves">
      <legend class="visually-hidden">carry the light</legend>
      {move("a stop nearer", { away: 1 / STOP })}
      {move("a stop farther", { away: STOP })}
      {topic === "direction" && (
        <>
          {move("10° to own left", { round: STEP_DEG })}
          {move("10° to own right", { round: -STEP_DEG })}
          {move("10° up", { up: STEP_DEG })}
          {move("10° down", { up: -STEP_DEG })}
          <button
            type="button"
            aria-pressed={follows}
            onClick={() =>
              putField(bench, "nose", ["people", 0, "head", "follows"], follows ? "nothing" : "camera")
            }
          >
            nose follows the lens
          </button>
        </>
      )}
      <button
        type="button"
        onClick={() => bench.session.replace(JSON.stringify(lessonPlan(topic)), "as at first")}
      >
        as at first
      </button>
      {why !== null && (
        <p class="alert" role="alert">
          {why}
        </p>
      )}
    </fieldset>
  );
}

interface SeenProps {
  readonly topic: Topic;
  readonly seen: Seen | null;
  readonly first: Seen | null;
}

function Facts({ topic, seen, first, units }: SeenProps & { units: Lesson["view"]["units"] }) {
  const text = (of: (seen: Seen, first: Seen) => string, at: Seen | null) =>
    at === null || first === null ? "…" : of(at, first);
  return (
    <table class="lesson-facts">
      <thead>
        <tr>
          <th scope="col" class="visually-hidden">
            what
          </th>
          <th scope="col">now</th>
          <th scope="col">at first</th>
        </tr>
      </thead>
      <tbody>
        {factsOf(topic, units).map(({ name, of }) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            <td>{text(of, seen)}</td>
            <td class="quiet">{text(of, first)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** Three things to reach; what was reached once stays so. */
function Tasks({ bench, topic, seen, first }: SeenProps & { bench: Bench }) {
  const reached = useRef(new Set<string>());
  const tasks = TASKS[topic];
  if (seen !== null && first !== null)
    for (const task of tasks) if (task.isDone(seen, first)) reached.current.add(task.text);
  const count = reached.current.size;
  useEffect(() => {
    if (count > 0) bench.say.set(`${count} of ${tasks.length} done.`);
  }, [bench, count, tasks]);
  return (
    <section class="lesson-tasks">
      <h2>Try</h2>
      <ol>
        {tasks.map(({ text }) => {
          const done = reached.current.has(text);
          return (
            <li key={text} class={done ? "done" : undefined}>
              {text} <strong>{done ? "Done." : ""}</strong>
            </li>
          );
        })}
      </ol>
    </section>
  );
}
