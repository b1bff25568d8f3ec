import { useEffect, useId, useMemo, useState } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import type { PlanChange } from "../shoots/index.ts";
import { lengthsIn } from "../units/index.ts";
import type { Bench } from "./bench.ts";
import { lengthText, parseLengthText } from "./entries.ts";
import { ChoiceField } from "./fields.tsx";
import { Progress } from "./find-progress.tsx";
import { useStore } from "./hooks.ts";
import { NumberField } from "./number-field.tsx";
import {
  askOf,
  formFor,
  gearChoices,
  type KnownRoom,
  type ReplanForm,
  roomChoices,
  sizedRoom,
} from "./replan-ask.ts";
import { ReplanResult } from "./replan-result.tsx";
import { ReplanRun } from "./replan-run.ts";
import type { RoomSize } from "./start-room.ts";

interface ReplanProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly title: string;
  readonly rooms?: readonly KnownRoom[];
  readonly onTake: (plan: Plan, changes: readonly PlanChange[]) => void;
}

const NO_ROOMS: readonly KnownRoom[] = [];

/** The same look in another room or with other gear: what is asked, how far it is, what is kept and what had to change. */
export function Replan({ bench, plan, title, rooms = NO_ROOMS, onTake }: ReplanProps) {
  const run = useMemo(() => new ReplanRun(bench), [bench]);
  useEffect(() => () => run.stop(), [run]);
  const { done, running, why } = useStore(run.store);
  const { units } = useStore(bench.view);
  const [form, setForm] = useState<ReplanForm>(() => formFor(plan));
  useEffect(() => setForm(formFor(plan)), [plan]);
  useEffect(() => {
    if (why !== null) bench.say.set(lengthsIn(why, units));
  }, [bench, why]);
  return (
    <div class="replan">
      <section aria-labelledby="replan-title">
        <h2 id="replan-title">Plan the same look again</h2>
        <p class="quiet">{title}</p>
        <AskForm {...{ bench, plan, rooms, form, setForm }} />
        <div class="find-ask">
          {running === null ? (
            <button
              type="button"
              class="begin"
              onClick={() => void run.plan(plan, askOf(plan, form, rooms), units)}
            >
              {done === null ? "plan it again" : "plan it once more"}
            </button>
          ) : (
            <Progress bench={bench} running={{ ...running, tried: 0 }} stop={() => run.stop()} />
          )}
        </div>
        {why !== null && (
          <p class="alert" role="alert">
            {lengthsIn(why, units)}
          </p>
        )}
        {done === null && running === null && why === null && <Before />}
      </section>
      {done !== null && <ReplanResult {...{ bench, plan, title, done, onTake }} />}
    </div>
  );
}

function Before() {
  return (
    <p class="quiet replan-before">
      The set is moved over as it is and its powers are set anew, so that the face reads as before. Where that
      does not hold, or with other gear, set-ups are searched for by what was read. The plan itself stays as
      it is: what comes of it is a new one.
    </p>
  );
}

interface AskFormProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly rooms: readonly KnownRoom[];
  readonly form: ReplanForm;
  readonly setForm: (form: ReplanForm) => void;
}

const SIDES = ["width", "depth", "height"] as const;

function AskForm({ bench, plan, rooms, form, setForm }: AskFormProps) {
  const { units } = useStore(bench.view);
  const legend = useId();
  const put = (side: keyof RoomSize, value: number): string | null => {
    const size = { ...form.size, [side]: Math.round(value * 1000) / 1000 };
    const sized = sizedRoom(plan, size);
    if ("why" in sized) return lengthsIn(sized.why, units);
    setForm({ ...form, size });
    return null;
  };
  return (
    <form
      class="brief replan-form"
      aria-label="What it is planned for"
      onSubmit={(event) => event.preventDefault()}
    >
      <fieldset class="group" aria-labelledby={legend}>
        <legend id={legend}>where</legend>
        <ChoiceField
          label="room"
          of="planned again"
          value={String(form.room)}
          choices={roomChoices(plan, rooms)}
          choose={(value) =>
            setForm({ ...form, room: value === "same" || value === "sized" ? value : Number(value) })
          }
        />
        {form.room === "sized" &&
          SIDES.map((side) => (
            <NumberField
              key={side}
              label={side}
              of="the other room"
              text={lengthText(form.size[side], units)}
              parse={(text) => parseLengthText(text, units)}
              commit={(value) => put(side, value)}
              step={(way, large) => put(side, form.size[side] + way * (large ? 1 : 0.1))}
            />
          ))}
      </fieldset>
      <fieldset class="group">
        <legend>with</legend>
        <ChoiceField
          label="gear"
          of="planned again"
          value={form.gear}
          choices={gearChoices(plan)}
          choose={(gear) => setForm({ ...form, gear })}
        />
      </fieldset>
    </form>
  );
}
