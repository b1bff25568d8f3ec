import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import { type ChecklistThing, checklist, checklistCautions, setUpsOf } from "../workbench/index.ts";
import type { Bench } from "./bench.ts";
import { ChecklistAllOn, ChecklistStep } from "./checklist-step.tsx";
import { tickDeskOf } from "./checklist-ticks.ts";
import { useStore } from "./hooks.ts";
import { PageHead } from "./page-head.tsx";
import { useReachEffects } from "./reach-effects.ts";
import { isChangedSince, standWords } from "./share-words.ts";

interface ChecklistPageProps {
  readonly bench: Bench;
  readonly now: () => Date;
}

/** What is set up, one thing after the other, large, with what is said aloud of it: for whoever builds the set with this machine
 * in the hand. Phones that are paired have the same. */
export function ChecklistPage({ bench, now }: ChecklistPageProps) {
  const { plan, key } = useStore(bench.session);
  const { units } = useStore(bench.view);
  const { reading, readingOf, readingQuality } = useStore(bench.results.store);
  const desk = tickDeskOf(bench);
  const { placed, isHereAlone, trouble } = useStore(desk.store);
  const title = useRef<HTMLHeadingElement>(null);
  const [at, setAt] = useState<string | null>(null);
  useEffect(() => title.current?.focus(), []);
  useEffect(() => {
    void desk.lookAt(key);
    return bench.news.subscribe((said) => {
      if (said.kind === "placed" && said.key === key) void desk.lookAt(key);
    });
  }, [bench, desk, key]);

  const isOfPlan = readingOf === plan;
  const effects = useReachEffects(bench, plan, isOfPlan && readingQuality === "fine");
  const known = useMemo(
    () => (reading === null || !isOfPlan ? null : { meters: reading.meters, reach: effects }),
    [reading, isOfPlan, effects],
  );
  const things = useMemo(() => checklist(plan, units, known), [plan, units, known]);
  const setUps = useMemo(() => setUpsOf(plan), [plan]);
  const { overhead, others } = useMemo(() => checklistCautions(plan, units), [plan, units]);

  const tickOf = ({ thing }: ChecklistThing) => placed.find((each) => each.thing === thing) ?? null;
  const stands = (thing: ChecklistThing) => {
    const tick = tickOf(thing);
    return tick !== null && !isChangedSince(setUps, tick);
  };
  const chosen = things.findIndex(({ thing }) => thing === at);
  const open = things.findIndex((thing) => !stands(thing));
  const step = at === ALL_ON ? things.length : chosen >= 0 ? chosen : open < 0 ? things.length : open;
  const go = (to: number) => {
    const thing = things[to];
    setAt(thing?.thing ?? ALL_ON);
    bench.say.set(`step ${to + 1} of ${things.length + 1}: ${thing?.name ?? "all lights on"}`);
    scrollTo(0, 0);
  };
  // what the step says itself is not said twice
  const onTop = overhead.filter((caution) => things[step]?.caution?.includes(caution) !== true);
  useEffect(() => {
    // the button that was pressed is gone at either end
    const { activeElement } = document;
    if (activeElement === document.body || (activeElement as HTMLButtonElement | null)?.disabled === true)
      title.current?.focus();
  }, [step]);
  const thing = things[step];
  return (
    <main class="checklist">
      <PageHead bench={bench} heading="Checklist" title={title} about={plan.title} />
      {onTop.length > 0 && (
        <section class="check-overhead" aria-label="Over people">
          {onTop.map((caution) => (
            <p key={caution}>{caution}</p>
          ))}
        </section>
      )}
      <section class="check-one" aria-label="one step at a time">
        <p class="quiet">
          step {step + 1} of {things.length + 1}
        </p>
        {thing === undefined ? (
          <ChecklistAllOn plan={plan} reading={known} />
        ) : (
          <ChecklistStep
            key={thing.thing}
            thing={thing}
            tick={tickOf(thing)}
            isOld={tickOf(thing) !== null && !stands(thing)}
            put={(isPlaced) => {
              // a tick does not turn the page by itself: what it was is read back first
              setAt(thing.thing);
              void desk.put(thing.thing, setUps.get(thing.thing) ?? "", isPlaced, now().toISOString());
            }}
          />
        )}
        {trouble !== null && (
          <p class="alert" role="alert">
            {trouble}
          </p>
        )}
        <p class="check-turn">
          <button type="button" disabled={step === 0} onClick={() => go(step - 1)}>
            back
          </button>
          <button type="button" disabled={step === things.length} onClick={() => go(step + 1)}>
            next
          </button>
        </p>
      </section>
      <nav class="check-all" aria-label="All steps">
        <p class="quiet">
          {standWords(setUps, placed)}
          {isHereAlone && "; ticked in this window only"}
        </p>
        <ol>
          {things.map((each, i) => (
            <li key={each.thing}>
              <button type="button" aria-current={i === step ? "step" : undefined} onClick={() => go(i)}>
                <span class="quiet">{i + 1}</span> {each.name}
                {stands(each) && <span class="quiet"> {each.verb}</span>}
              </button>
            </li>
          ))}
          <li>
            <button
              type="button"
              aria-current={step === things.length ? "step" : undefined}
              onClick={() => go(things.length)}
            >
              <span class="quiet">{things.length + 1}</span> all lights on
            </button>
          </li>
        </ol>
        <details>
          <summary>cautions: bags, arms, cables, mains, heat, flash</summary>
          <ul>
            {others.map((caution) => (
              <li key={caution}>{caution}</li>
            ))}
          </ul>
        </details>
      </nav>
    </main>
  );
}

/** No thing is called that: their names have a list before them, or are the camera's and the backdrop's. */
const ALL_ON = "all on";
