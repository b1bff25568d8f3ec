import type { Plan } from "../plan/index.ts";
import { ADDABLE, addEdit } from "./adding.ts";
import { type Bench, holdAlso, makeEdit, takeHold } from "./bench.ts";
import { useStore } from "./hooks.ts";
import { chosenPerson } from "./layer-height.ts";
import { heldObjects, listObjects } from "./objects.ts";

/** Everything that is in the plan: its name takes hold of it, the box beside it holds it along with the others. */
export function ThingsList({ bench, plan }: { bench: Bench; plan: Plan }) {
  const view = useStore(bench.view);
  const held = new Set(heldObjects(plan, view).map((object) => object.owner));
  return (
    <nav class="in-plan" aria-label="In this plan">
      <h3 class="quiet">in this plan</h3>
      <ul class="things">
        <li>
          <Pick bench={bench} owner={null} text="room" picked={held.size === 0} />
        </li>
        {listObjects(plan).map(({ owner, name, kind, pinned }) => (
          <li key={owner}>
            <span>
              <Pick bench={bench} owner={owner} text={name} picked={held.has(owner)} />
              {kind !== name && <span class="quiet"> {kind}</span>}
              {pinned && <span class="quiet">, pinned</span>}
            </span>
            <input
              type="checkbox"
              aria-label={`hold ${name} too, ${kind}`}
              checked={held.has(owner)}
              onChange={() => holdAlso(bench, owner)}
            />
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
              const { edit, owner } = addEdit(plan, kind, chosenPerson(plan, view));
              if (makeEdit(bench, edit) === null) takeHold(bench, owner);
            }}
          >
            {kind}
          </button>
        ))}
      </p>
    </nav>
  );
}

function Pick(props: { bench: Bench; owner: string | null; text: string; picked: boolean }) {
  const { bench, owner } = props;
  return (
    <button
      type="button"
      aria-pressed={props.picked}
      onClick={(event) => {
        const isAlso = event.shiftKey || event.ctrlKey || event.metaKey;
        if (isAlso && owner !== null) holdAlso(bench, owner);
        else takeHold(bench, owner);
      }}
    >
      {props.text}
    </button>
  );
}
