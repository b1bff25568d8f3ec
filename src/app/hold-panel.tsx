import { useEffect, useRef } from "preact/hooks";
import { askedWords, type HoldZone, holdRows } from "../finder/index.ts";
import type { Plan } from "../plan/index.ts";
import type { LengthUnits } from "../units/index.ts";
import type { Bench } from "./bench.ts";
import { holdOf } from "./hold-follower.ts";
import { amountWords, circleWords, tapeWords } from "./hold-words.ts";
import { useStore } from "./hooks.ts";
import { chosenPerson } from "./layer-height.ts";
import { theOne } from "./wording.ts";

interface HoldPanelProps {
  readonly bench: Bench;
  /** the plan whose light is shown */
  readonly plan: Plan;
}

/** The hold zone in numbers: how far to each side, what ends it there, how far the head may turn and tip. */
export function HoldPanel({ bench, plan }: HoldPanelProps) {
  const view = useStore(bench.view);
  const { readingOf, readingQuality, busy } = useStore(bench.results.store);
  const follower = holdOf(bench);
  const { zone, of, failure, busy: working } = useStore(follower.store);
  const person = chosenPerson(plan, view);
  const settled = readingOf === plan && readingQuality === "fine" && !busy.reading;
  const wanted = view.showHold && settled;
  useEffect(() => follower.follow(wanted ? plan : null, person), [follower, wanted, plan, person]);
  useEffect(() => () => follower.follow(null, 0), [follower]);
  const isStale = of !== plan || zone?.person !== person;
  useSaid(bench, view.showHold, isStale ? null : zone, view.units);
  if (!view.showHold) return null;
  const who = plan.people[person];
  return (
    <section class="hold-zone" aria-labelledby="hold-title" aria-busy={isStale && failure === null}>
      <header class="section-head">
        <h2 id="hold-title">Hold zone</h2>
        <span class="quiet refining" data-on={working}>
          working it out…
        </span>
      </header>
      {failure !== null && <p class="alert">It could not be worked out: {failure}.</p>}
      {who === undefined ? (
        <p class="quiet">Nobody stands in this plan yet.</p>
      ) : zone === null || zone.person !== person ? (
        failure === null && <p class="quiet">It is worked out once the plan is at rest.</p>
      ) : (
        <Numbers {...{ zone, who, isStale }} units={view.units} throughCloth={isVeiled(plan)} />
      )}
    </section>
  );
}

interface NumbersProps {
  readonly zone: HoldZone;
  readonly who: Plan["people"][number];
  readonly units: LengthUnits;
  readonly isStale: boolean;
  /** what a coarse reading knows of such light is less (docs/spec/hold.md) */
  readonly throughCloth: boolean;
}

function Numbers({ zone, who, units, isStale, throughCloth }: NumbersProps) {
  if (zone.asked.pattern === "dark")
    return <p class="quiet">No light falls on the face of {theOne(who.name)}: there is nothing to hold.</p>;
  return (
    <div class={isStale ? "stale" : undefined}>
      <p>
        Inside it the light on {theOne(who.name)} stays as asked: {askedWords(zone.asked)}.
        {zone.asked.headroomStops === null && " Headroom is not asked: it is short at the mark already."}
      </p>
      <table>
        <caption class="visually-hidden">From the mark, and what ends it there</caption>
        <thead class="visually-hidden">
          <tr>
            <th scope="col">way</th>
            <th scope="col">as far as</th>
            <th scope="col">what ends it there</th>
          </tr>
        </thead>
        <tbody>
          {holdRows(zone).map((row) => (
            <tr key={row.way}>
              <th scope="row">{row.way}</th>
              <td class="amount">{amountWords(row, units)}</td>
              <td class="quiet">{row.ends}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p>
        Largest circle that fits: radius <b>{tapeWords(zone.circle.radius_m, units)}</b>,{" "}
        {circleWords(zone, who.facing, units)}.
      </p>
      {throughCloth && (
        <p class="quiet">Light comes through a panel here: the zone is good to a third of a stop only.</p>
      )}
      <p class="quiet">
        Lights, camera and everybody else stay where they are. What is reached from the mark in a straight
        line counts; the floor is looked at as far as a metre, turn and tip each by themselves.
      </p>
    </div>
  );
}

const isVeiled = ({ panels }: Plan) => panels.some(({ transmittance }) => transmittance > 0);

/** Said once when it is switched on and worked out; later changes are on screen, and do not talk over what else is said. */
function useSaid(bench: Bench, isOn: boolean, zone: HoldZone | null, units: LengthUnits): void {
  const said = useRef(true);
  useEffect(() => {
    said.current = !isOn;
  }, [isOn]);
  useEffect(() => {
    if (said.current || zone === null) return;
    said.current = true;
    const sides = holdRows(zone).map((row) => `${row.way} ${amountWords(row, units)}, ${row.ends}`);
    bench.say.set(`Hold zone: ${sides.join("; ")}.`);
  }, [bench, isOn, zone, units]);
}
