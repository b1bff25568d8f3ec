import type { ComponentChildren } from "preact";
import type { Plan } from "../plan/index.ts";
import type { LengthUnits } from "../units/index.ts";
import type { Bench } from "./bench.ts";
import { lengthText } from "./entries.ts";
import type { FileActions } from "./file-actions.ts";
import { wantLine } from "./find-words.ts";
import { ShowOnPhone } from "./share-place.tsx";
import { SheetActions } from "./sheet-actions.tsx";
import { ShootSteps } from "./shoot-steps.tsx";
import { RecordStep } from "./shoots-record.tsx";

interface JobProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly files: FileActions;
  readonly units: LengthUnits;
  /** how many changes lie behind what is on screen */
  readonly changes: number;
  /** to the brief and the set-ups found for it */
  readonly find: () => void;
}

/** A length that no line breaks apart. */
const whole = (length: number, units: LengthUnits) => lengthText(length, units).replaceAll(" ", "\u00a0");

const count = (n: number, one: string, many = `${one}s`) => `${n === 0 ? "no" : n} ${n === 1 ? one : many}`;

/** The job in its six words, each with how far it is. */
export function Job({ bench, plan, files, units, changes, find }: JobProps) {
  const { brief, lights, people, print } = plan;
  const asked = brief && wantLine(brief.want);
  return (
    <nav aria-label="The job">
      <ol class="job">
        <Step number={1} word="brief">
          {asked ?? "nothing asked of the light"}
          {print !== null && `; for ${whole(print.width, units)} × ${whole(print.height, units)}`}
          <button type="button" class="line" onClick={find}>
            find a set-up
          </button>
          <button type="button" class="line" onClick={() => bench.view.update({ screen: "use" })}>
            final use
          </button>
        </Step>
        <Step number={2} word="plan" current>
          {count(lights.length, "light")}, {count(people.length, "person", "people")}
          {changes > 0 && `, ${count(changes, "change")}`}
        </Step>
        <Step number={3} word="place">
          <SheetActions files={files} />
          <button type="button" class="line" onClick={() => bench.view.update({ screen: "checklist" })}>
            checklist
          </button>
          <ShowOnPhone bench={bench} plan={plan} />
        </Step>
        <ShootSteps bench={bench} plan={plan} />
        <RecordStep bench={bench} />
      </ol>
    </nav>
  );
}

export function Step(props: {
  number: number;
  word: string;
  current?: boolean;
  children: ComponentChildren;
}) {
  return (
    <li aria-current={props.current ? "step" : undefined}>
      <span class="step">
        {props.number} {props.word}
      </span>
      <span class="quiet">{props.children}</span>
    </li>
  );
}
