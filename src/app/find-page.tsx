import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import { type Bench, makeEdit } from "./bench.ts";
import { Answers } from "./find-answers.tsx";
import { briefEdit, briefOf, searchedPlan, wantAsRead } from "./find-brief.ts";
import { BriefForm } from "./find-form.tsx";
import type { PutBrief } from "./find-part.tsx";
import { Ending, Progress } from "./find-progress.tsx";
import { findRunOf } from "./find-run.ts";
import { wantLine } from "./find-words.ts";
import { useStore } from "./hooks.ts";
import { PageHead, UndoPlan } from "./page-head.tsx";

/** Set-ups for a brief: what is wanted and what there is, the search, and what it found side by side. */
export function FindPage({ bench }: { readonly bench: Bench }) {
  const { key, plan } = useStore(bench.session);
  const { units } = useStore(bench.view);
  const run = findRunOf(bench);
  const { ended, found, running } = useStore(run.store);
  const title = useRef<HTMLHeadingElement>(null);
  const ask = useRef<HTMLButtonElement>(null);
  useEffect(() => title.current?.focus(), []);
  // the word "stop" is gone with what it stopped
  useEffect(() => {
    if (ended !== null && document.activeElement === document.body) ask.current?.focus();
  }, [ended]);
  const brief = useMemo(() => briefOf(plan), [plan]);
  const question = useMemo((): Plan => ({ ...plan, brief }), [plan, brief]);
  const { backdrop, panels, people, room } = question;
  useEffect(() => {
    if (lacking(question) === null) run.prepare(searchedPlan(plan));
    // lights and wishes are asked for by the search itself
  }, [run, people, room, backdrop, panels]);
  const put: PutBrief = (label, path, value) =>
    makeEdit(bench, briefEdit(bench.session.get().plan, label, path, value));
  const lacks = lacking(question);
  const isOurs = found !== null && (found.key === "" || found.key === key);
  return (
    <main class="find">
      <PageHead bench={bench} heading="Find a set-up" title={title} about={plan.title}>
        <button type="button" onClick={() => bench.view.update({ screen: "gear", gear: "shelf" })}>
          gear shelf
        </button>
        <UndoPlan bench={bench} />
      </PageHead>
      <section class="find-brief" aria-labelledby="brief-title">
        <div class="section-head">
          <h2 id="brief-title">Brief</h2>
          <AsRead bench={bench} plan={plan} put={put} />
        </div>
        <BriefForm {...{ plan, brief, put, units }} />
      </section>
      <div class="find-answers">
        <div class="find-ask">
          {running === null ? (
            <>
              <button
                ref={ask}
                type="button"
                class="begin"
                disabled={lacks !== null}
                onClick={() => void run.search(question, key, searchedPlan(plan))}
              >
                {isOurs ? "find again" : "find set-ups"}
              </button>
              <span class="quiet">{lacks ?? askedLine(question)}</span>
            </>
          ) : (
            <Progress bench={bench} running={running} stop={() => run.stop()} />
          )}
        </div>
        {ended !== null && <Ending bench={bench} ended={ended} />}
        {isOurs ? (
          <Answers {...{ bench, plan, found, question }} />
        ) : (
          running === null && ended === null && <Before />
        )}
      </div>
    </main>
  );
}

/** What stands in the way of a search, and what to do about it. */
function lacking({ brief, lights, people }: Plan): string | null {
  if (brief === null || people[brief.person] === undefined)
    return "Nobody stands in the plan: go back and add a person first.";
  const hasLight = brief.gear?.lights.length !== 0 || lights.some(({ on, pinned }) => on && pinned);
  if (!hasLight) return "There is nothing to light with: add a light on hand.";
  return null;
}

function askedLine({ brief }: Plan): string {
  const line = brief && wantLine(brief.want);
  return line ?? "Everything is free: ask for something first, or see what comes.";
}

function Before() {
  return (
    <p class="quiet find-before">
      Up to five set-ups that really differ come side by side: each with its picture, its floor to scale, what
      of the brief it meets and by how much. Nothing changes in the plan until you take one.
    </p>
  );
}

/** Asks for the light that is there, to be had again with what is on hand. */
function AsRead({ bench, plan, put }: { bench: Bench; plan: Plan; put: PutBrief }) {
  const { reading, readingOf } = useStore(bench.results.store);
  const brief = briefOf(plan);
  const person = readingOf === plan ? reading?.people[brief.person] : undefined;
  const [why, setWhy] = useState<string | null>(null);
  if (reading === null || person === undefined || plan.lights.length === 0) return null;
  return (
    <span>
      <button
        type="button"
        onClick={() =>
          setWhy(
            put("the light as it reads now", ["want"], wantAsRead(brief.want, person.face, reading.camera)),
          )
        }
      >
        as it reads now
      </button>
      {why !== null && <span class="alert"> {why}</span>}
    </span>
  );
}
