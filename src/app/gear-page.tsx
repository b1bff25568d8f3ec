import { useEffect, useRef, useState } from "preact/hooks";
import { briefGear, type Shelf } from "../gear/index.ts";
import type { Plan } from "../plan/index.ts";
import type { SessionState } from "../workbench/index.ts";
import { type Bench, type GearPart, makeEdit } from "./bench.ts";
import { Either } from "./edge-settings.tsx";
import { briefEdit } from "./find-brief.ts";
import { ShelfApart } from "./gear-apart.tsx";
import { Check, lightOf } from "./gear-check.tsx";
import { type ShelfDesk, shelfDeskOf } from "./gear-desk.ts";
import { Packing } from "./gear-packing.tsx";
import { ShelfPart, ShelfState, ShelfTrouble } from "./gear-shelf.tsx";
import { Weights } from "./gear-weights.tsx";
import { useStore } from "./hooks.ts";
import { PageHead } from "./page-head.tsx";

interface GearPageProps {
  readonly bench: Bench;
  readonly state: SessionState;
}

/** What there is to light with, whether it can do what the plan asks, what to pack, and what it all weighs and draws. */
export function GearPage({ bench, state }: GearPageProps) {
  const { gear } = useStore(bench.view);
  const desk = shelfDeskOf(bench);
  useStore(desk.store);
  const title = useRef<HTMLHeadingElement>(null);
  // whoever comes from a light is led to it, once
  const sought = useRef(lightOf(bench.view.get()));
  useEffect(() => {
    if (sought.current === null) title.current?.focus();
    sought.current = null;
  }, []);
  useEffect(() => {
    const look = () => void desk.load();
    look();
    // another window may have changed it meanwhile
    addEventListener("focus", look);
    return () => removeEventListener("focus", look);
  }, [desk]);
  const { plan } = state;
  const of = gear === "shelf" ? desk.steps() : planSteps(bench, state);
  useShelfKeys(gear === "shelf" ? desk : null);
  return (
    <main class="gear-page">
      <PageHead
        bench={bench}
        heading="Gear"
        title={title}
        about={plan.title}
        parts={<Parts bench={bench} part={gear} />}
      >
        <Undo of={of} />
      </PageHead>
      <ShelfTrouble bench={bench} />
      <ShelfApart bench={bench} />
      {gear === "shelf" && <ShelfOf bench={bench} plan={plan} />}
      {gear === "check" && <CheckOf {...{ bench, plan }} sought={sought.current} />}
      {gear === "packing" && <PackingOf bench={bench} state={state} />}
      {gear === "weights" && <Weights {...{ bench, plan }} sought={sought.current} />}
    </main>
  );
}

function ShelfOf({ bench, plan }: { bench: Bench; plan: Plan }) {
  const { shelf } = useStore(shelfDeskOf(bench).store);
  return (
    <>
      <div class="gear-top">
        <ShelfState bench={bench} />
        {shelf !== null && <Search bench={bench} plan={plan} shelf={shelf} />}
      </div>
      {shelf !== null && <ShelfPart bench={bench} shelf={shelf} />}
    </>
  );
}

function CheckOf(props: { bench: Bench; plan: Plan; sought: number | null }) {
  const { shelf } = useStore(shelfDeskOf(props.bench).store);
  return <Check {...props} shelf={shelf} />;
}

function PackingOf({ bench, state: { key, plan } }: GearPageProps) {
  const { shelf } = useStore(shelfDeskOf(bench).store);
  if (shelf === null) return null;
  return <Packing key={key} {...{ bench, plan, shelf }} planKey={key} />;
}

/** What is on the shelf, as gear on hand for a search. */
function Search({ bench, plan, shelf }: { bench: Bench; plan: Plan; shelf: Shelf }) {
  const [why, setWhy] = useState<string | null>(null);
  return (
    <p>
      <button
        type="button"
        disabled={shelf.heads.length === 0}
        onClick={() => {
          const refused = makeEdit(bench, briefEdit(plan, "on hand: the shelf", ["gear"], briefGear(shelf)));
          setWhy(refused);
          if (refused === null) bench.view.update({ screen: "find" });
        }}
      >
        search with what is here
      </button>{" "}
      <span class="quiet">set-ups found with these heads, modifiers, stands and panels</span>
      {why !== null && <span class="alert"> {why}</span>}
    </p>
  );
}

/** What can be taken back here: steps of the plan, or of the shelf where that is what is changed. */
interface Steps {
  readonly undo: (() => void) | null;
  readonly redo: (() => void) | null;
}

const planSteps = ({ session }: Bench, { redoLabel, undoLabel }: SessionState): Steps => ({
  undo: undoLabel === null ? null : () => session.undo(),
  redo: redoLabel === null ? null : () => session.redo(),
});

function Undo({ of: { redo, undo } }: { of: Steps }) {
  return (
    <>
      <button type="button" disabled={undo === null} onClick={() => undo?.()}>
        undo
      </button>
      <button type="button" disabled={redo === null} onClick={() => redo?.()}>
        redo
      </button>
    </>
  );
}

/** The keys that take back steps of the plan elsewhere take back those of the shelf while it is what is changed. */
function useShelfKeys(desk: ShelfDesk | null): void {
  useEffect(() => {
    if (desk === null) return;
    const onKey = (event: KeyboardEvent) => {
      const key = event.key.toLowerCase();
      if (!(event.ctrlKey || event.metaKey) || event.altKey || (key !== "z" && key !== "y")) return;
      if (event.target instanceof HTMLInputElement) return;
      event.preventDefault();
      event.stopPropagation();
      if (key === "y" || event.shiftKey) desk.redo();
      else desk.undo();
    };
    addEventListener("keydown", onKey, true);
    return () => removeEventListener("keydown", onKey, true);
  }, [desk]);
}

const PARTS: readonly (readonly [GearPart, string])[] = [
  ["shelf", "shelf"],
  ["check", "can it do that?"],
  ["packing", "packing list"],
  ["weights", "weights and mains"],
];

function Parts({ bench, part }: { bench: Bench; part: GearPart }) {
  return (
    <fieldset class="row shoot-parts">
      <legend class="visually-hidden">what is looked at</legend>
      {PARTS.map(([key, text]) => (
        <Either key={key} text={text} on={part === key} choose={() => bench.view.update({ gear: key })} />
      ))}
    </fieldset>
  );
}
