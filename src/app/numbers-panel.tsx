import type { Plan } from "../plan/index.ts";
import type { PlanReading } from "../reading/index.ts";
import { type Addable, addEdit, removeEdit } from "./adding.ts";
import { type Bench, makeEdit, takeHold } from "./bench.ts";
import type { FileActions } from "./file-actions.ts";
import { useStore } from "./hooks.ts";
import { LightNumbers } from "./light-numbers.tsx";
import { findObject, listObjects, type PlanObject } from "./objects.ts";
import {
  BackdropNumbers,
  CameraNumbers,
  MeterNumbers,
  PanelNumbers,
  PersonNumbers,
  RoomNumbers,
} from "./other-numbers.tsx";

interface NumbersPanelProps {
  readonly bench: Bench;
  readonly files: FileActions;
  readonly plan: Plan;
  readonly reading: PlanReading | null;
}

/** The numbers of what is taken hold of; of the room when nothing is. Beneath, everything that is in the plan. */
export function NumbersPanel({ bench, files, plan, reading }: NumbersPanelProps) {
  const view = useStore(bench.view);
  const object = findObject(plan, view.selected);
  return (
    <section class="numbers" aria-labelledby="numbers-title">
      <div class="numbers-of">
        <h2 id="numbers-title">{object?.name ?? "room"}</h2>
        {object !== null && object.kind !== object.name && <span class="quiet">{object.kind}</span>}
        {object !== null && removeEdit(object) !== null && (
          <button type="button" class="take-away" onClick={() => takeAway(bench, object)}>
            take away<span class="visually-hidden"> {object.name}</span>
          </button>
        )}
      </div>
      {object === null ? (
        <RoomNumbers bench={bench} plan={plan} />
      ) : (
        <ObjectNumbers key={object.owner} bench={bench} plan={plan} reading={reading} object={object} />
      )}
      <nav class="in-plan" aria-label="In this plan">
        <h3 class="quiet">in this plan</h3>
        <ul>
          <li>
            <Pick bench={bench} owner={null} text="room" picked={object === null} />
          </li>
          {listObjects(plan).map((each) => (
            <li key={each.owner}>
              <Pick bench={bench} owner={each.owner} text={each.name} picked={each.owner === object?.owner} />
              {each.kind !== each.name && <span class="quiet"> {each.kind}</span>}
            </li>
          ))}
        </ul>
        <p class="adding">
          add{" "}
          {ADDABLE.map((kind) => (
            <button
              key={kind}
              type="button"
              onClick={() => {
                const { edit, owner } = addEdit(plan, kind);
                if (makeEdit(bench, edit) === null) takeHold(bench, owner);
              }}
            >
              {kind}
            </button>
          ))}
        </p>
      </nav>
      {plan.lights.length === 0 && plan.people.length === 0 && <Examples files={files} />}
    </section>
  );
}

/** On an empty table: the plans that come with the program. */
function Examples({ files }: { files: FileActions }) {
  if (files.examples.length === 0) return null;
  return (
    <nav class="in-plan" aria-label="Examples">
      <h3 class="quiet">or begin with an example</h3>
      <ul>
        {files.examples.map((name) => (
          <li key={name}>
            <button type="button" onClick={() => void files.openExample(name)}>
              {name}
            </button>
          </li>
        ))}
      </ul>
    </nav>
  );
}

const ADDABLE: readonly Addable[] = ["light", "person", "panel", "meter"];

function takeAway(bench: Bench, object: PlanObject): void {
  const edit = removeEdit(object);
  if (edit !== null && makeEdit(bench, edit) === null) takeHold(bench, null);
}

function Pick(props: { bench: Bench; owner: string | null; text: string; picked: boolean }) {
  return (
    <button type="button" aria-pressed={props.picked} onClick={() => takeHold(props.bench, props.owner)}>
      {props.text}
    </button>
  );
}

function ObjectNumbers(props: Omit<NumbersPanelProps, "files"> & { object: PlanObject }) {
  const { bench, plan, reading, object } = props;
  const index = object.path[1] as number;
  const common = { bench, object };
  switch (object.kind) {
    case "light": {
      const light = plan.lights[index];
      return light === undefined ? null : (
        <LightNumbers {...common} index={index} light={light} plan={plan} reading={reading} />
      );
    }
    case "person": {
      const person = plan.people[index];
      return person === undefined ? null : <PersonNumbers {...common} thing={person} />;
    }
    case "panel": {
      const panel = plan.panels[index];
      return panel === undefined ? null : <PanelNumbers {...common} thing={panel} />;
    }
    case "meter": {
      const meter = plan.meters[index];
      return meter === undefined ? null : <MeterNumbers {...common} thing={meter} />;
    }
    case "camera":
      return <CameraNumbers {...common} thing={plan.camera} />;
    case "backdrop":
      return plan.backdrop === null ? null : <BackdropNumbers {...common} thing={plan.backdrop} />;
  }
}
