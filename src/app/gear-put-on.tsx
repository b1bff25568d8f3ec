import { useState } from "preact/hooks";
import { type Putting, putOn, type Shelf } from "../gear/index.ts";
import type { Light, Plan } from "../plan/index.ts";
import { type Bench, makeEdit } from "./bench.ts";
import { ChoiceField } from "./fields.tsx";
import { useStore } from "./hooks.ts";
import { capital } from "./wording.ts";

const AS_IT_IS = "";
const NOTHING = "nothing, bare";

interface PutOnProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly shelf: Shelf;
  readonly light: Light;
  readonly index: number;
}

interface Chosen {
  readonly head: string;
  readonly modifier: string;
  readonly stand: string;
}

const AS_IT_STANDS: Chosen = { head: AS_IT_IS, modifier: NOTHING, stand: AS_IT_IS };

/** Things of the shelf put on a light of the plan, with what becomes of its power said before it is done. */
export function PutOn({ bench, plan, shelf, light, index }: PutOnProps) {
  const { units } = useStore(bench.view);
  const [chosen, choose] = useState(AS_IT_STANDS);
  const [why, setWhy] = useState<string | null>(null);
  const put = (change: Partial<Chosen>) => {
    setWhy(null);
    choose({ ...chosen, ...change });
  };
  const putting = puttingOf(shelf, chosen);
  const done = putting === null ? null : putOn(plan, index, putting, units);
  const names = (pieces: readonly { name: string }[]) => pieces.map(({ name }) => [name, name] as const);
  const whatIsOn = [AS_IT_IS, "as it is"] as const;
  return (
    <fieldset class="group gear-put">
      <legend>
        from the shelf<span class="visually-hidden"> for {light.name}</span>
      </legend>
      <ChoiceField
        label="head"
        of={light.name}
        value={chosen.head}
        choices={[whatIsOn, ...names(shelf.heads)]}
        choose={(head) => put({ head })}
      />
      {chosen.head !== AS_IT_IS && (
        <ChoiceField
          label="with"
          of={light.name}
          value={chosen.modifier}
          choices={[[NOTHING, NOTHING], ...names(shelf.modifiers)]}
          choose={(modifier) => put({ modifier })}
        />
      )}
      <ChoiceField
        label="stand"
        of={light.name}
        value={chosen.stand}
        choices={[whatIsOn, ...names(shelf.stands)]}
        choose={(stand) => put({ stand })}
      />
      <p class="quiet small" aria-live="polite">
        {done !== null && done.says !== "" && `${capital(done.says)}.`}
      </p>
      <p>
        <button
          type="button"
          disabled={done === null}
          onClick={() => {
            if (done === null) return;
            const refused = makeEdit(bench, done.edit);
            setWhy(refused);
            if (refused === null) bench.say.set(`${done.edit.label}: ${done.says}`);
          }}
        >
          put it on<span class="visually-hidden"> {light.name}</span>
        </button>
      </p>
      {why !== null && (
        <p class="alert" role="alert">
          {why}
        </p>
      )}
    </fieldset>
  );
}

/** Null where nothing of the shelf is chosen. */
function puttingOf({ heads, modifiers, stands }: Shelf, chosen: Chosen): Putting | null {
  const of = <P extends { name: string }>(pieces: readonly P[], name: string) =>
    pieces.find((piece) => piece.name === name);
  const head = of(heads, chosen.head);
  const stand = of(stands, chosen.stand);
  if (head === undefined && stand === undefined) return null;
  return {
    ...(head === undefined ? {} : { head, modifier: of(modifiers, chosen.modifier) ?? null }),
    ...(stand === undefined ? {} : { stand }),
  };
}
