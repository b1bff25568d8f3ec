import { useEffect, useState } from "preact/hooks";
import { createMemoryStore, createSession } from "../workbench/index.ts";
import type { Bench, View } from "./bench.ts";
import { useStore } from "./hooks.ts";
import { mapsFor } from "./layer-height.ts";
import { type Seen, seenOf } from "./lesson-facts.ts";
import { lessonText, type Topic } from "./lesson-plan.ts";
import { NO_NEWS } from "./news-client.ts";
import { ResultsFollower } from "./results.ts";
import { Store } from "./store.ts";

/** The lesson is forgotten when it closes: nothing is ever due. */
const NEVER = { after: () => () => {} };

/** A bench of its own for a lesson: its plan, what is held in it and what is computed of it touch nothing of the work. */
export function lessonBench(bench: Bench, topic: Topic): Bench {
  const session = createSession({ computer: bench.trials, store: createMemoryStore(), scheduler: NEVER });
  session.replace(lessonText(topic), topic);
  const view = new Store<View>({
    ...bench.view.get(),
    selected: "lights[0]",
    also: [],
    person: 0,
    showPower: topic === "power",
    showDirection: topic === "direction",
    layerHeight_m: null,
    layerAcross_m: null,
    reference: null,
    alone: null,
    guess: null,
  });
  return {
    session,
    results: new ResultsFollower(bench.trials, bench.trials),
    trials: bench.trials,
    finders: bench.finders,
    view,
    desk: null,
    gear: null,
    shelf: null,
    sharing: null,
    library: null,
    news: NO_NEWS,
    say: bench.say,
  };
}

/** The lesson's bench, asked for what its plan needs, and its plan as it was at first. */
export function useLesson(bench: Bench, topic: Topic) {
  const [lesson] = useState(() => lessonBench(bench, topic));
  const [opening] = useState(() => lesson.session.get().plan);
  const { plan } = useStore(lesson.session);
  const view = useStore(lesson.view);
  const results = useStore(lesson.results.store);
  const [first, setFirst] = useState<Seen | null>(null);
  useEffect(() => {
    // one layer explains one thing, but both pages need the power at the face
    lesson.results.ask(plan, mapsFor(plan, { ...view, showPower: true }));
  }, [lesson, plan, view]);
  useEffect(() => () => lesson.results.clear(), [lesson]);
  const { units } = useStore(bench.view);
  useEffect(() => lesson.view.update({ units }), [lesson, units]);
  const seen = seenOf(plan, results);
  useEffect(() => {
    const isNew = seen?.who !== first?.who || seen?.map !== first?.map;
    if (seen !== null && seen.plan === opening && isNew) setFirst(seen);
  });
  return { lesson, plan, view, results, seen, first };
}
