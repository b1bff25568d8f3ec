import { useState } from "preact/hooks";
import type { LengthUnits } from "../units/index.ts";
import type { LivePlan } from "../workbench/index.ts";
import type { Connection, Link } from "./connection.ts";
import { useFollowed } from "./hooks.ts";
import { PairScreen } from "./pair-screen.tsx";
import { PlaceView, type Shown } from "./place-view.tsx";
import { PlanView } from "./plan-view.tsx";
import { ReadView } from "./read-view.tsx";

const VIEWS = ["place", "read", "plan"] as const;
type View = (typeof VIEWS)[number];

interface PhoneProps {
  readonly connection: Connection;
  readonly units: LengthUnits;
  readonly chooseUnits: (units: LengthUnits) => void;
}

/** One screen at a time: pairing, then what to place, what to read, and the plan. */
export function Phone({ connection, units: first, chooseUnits }: PhoneProps) {
  const { link, plan } = useFollowed(connection);
  const [view, setView] = useState<View>("place");
  const [units, setUnits] = useState(first);
  const [chosen, show] = useState<Shown | null>(null);
  const hasSeen = plan !== null;
  if (link.state === "unpaired" || link.state === "ended")
    return <PairScreen link={link} wasPaired={hasSeen} paired={() => connection.open()} />;
  if (plan === null) return <Waiting link={link} />;
  const choose = (chosen: LengthUnits) => {
    setUnits(chosen);
    chooseUnits(chosen);
  };
  return (
    <div class="phone">
      <header class="top" data-state={link.state}>
        <h1>{plan.title}</h1>
        <LinkLine link={link} />
      </header>
      <main class="view" key={view}>
        {view === "place" && <PlaceView plan={plan} chosen={chosen} show={show} />}
        {view === "read" && <ReadView plan={plan} />}
        {view === "plan" && <PlanView plan={plan} units={units} choose={choose} />}
      </main>
      <nav class="views" aria-label="What to look at">
        {VIEWS.map((each) => (
          <button
            key={each}
            type="button"
            aria-current={view === each ? "page" : undefined}
            onClick={() => {
              setView(each);
              scrollTo(0, 0);
            }}
          >
            {each}
            <span class="tally">{tally(each, plan)}</span>
          </button>
        ))}
      </nav>
    </div>
  );
}

/** How far it is, beneath the word. */
function tally(view: View, { things, readings }: LivePlan): string {
  if (view === "place") {
    const stand = things.filter(({ placed }) => placed !== null && !placed.isOld);
    return `${stand.length} of ${things.length}`;
  }
  if (view === "read")
    return `${readings.filter(({ made, isOld }) => made !== null && !isOld).length} of ${readings.length}`;
  return "floor, side";
}

const SAID = { opening: "looking for the workbench", live: "live", lost: "lost, trying again" } as const;

function LinkLine({ link }: { link: Link }) {
  const { state } = link;
  if (state === "ended" || state === "unpaired") return null;
  return (
    <p class="link" data-state={state} role="status">
      {SAID[state]}
    </p>
  );
}

function Waiting({ link }: { link: Link }) {
  return (
    <main class="alone">
      <h1>Tapemark</h1>
      {link.state === "live" ? (
        <p role="status">No plan is on the table. It shows here as soon as one is opened in the workbench.</p>
      ) : (
        <LinkLine link={link} />
      )}
    </main>
  );
}
