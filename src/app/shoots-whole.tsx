import { useEffect, useRef, useState } from "preact/hooks";
import type { PlanInShoot, PlanVersion, ShootWhole } from "../shoots/index.ts";
import type { Bench } from "./bench.ts";
import type { FileActions, FileNews } from "./file-actions.ts";
import { useStore } from "./hooks.ts";
import type { KeptLibrary } from "./library-client.ts";
import { BackToPlan, PageHead } from "./page-head.tsx";
import { Problems } from "./problems.tsx";
import { knownRooms } from "./replan-ask.ts";
import { scheduler } from "./scheduler.ts";
import { WholeActs } from "./shoots-acts.tsx";
import { type Beside, BesidePart } from "./shoots-beside.tsx";
import { draftOf, type ShootDraft } from "./shoots-draft.ts";
import { ShootFieldsForm, ShootTitle } from "./shoots-fields.tsx";
import { ShootFrames } from "./shoots-frames.tsx";
import { usePlans } from "./shoots-kept-plans.ts";
import { useLibraryNews } from "./shoots-news.ts";
import { PlansOfShoot } from "./shoots-plans.tsx";
import { ReadingsTable } from "./shoots-readings.tsx";
import { type PlanState, planOf, stateOf } from "./shoots-states.ts";
import type { Store } from "./store.ts";
import { troubleOf } from "./trouble.ts";

export interface WholeProps {
  readonly bench: Bench;
  readonly files: FileActions;
  readonly news: Store<FileNews | null>;
  readonly library: KeptLibrary;
  readonly now: () => Date;
  readonly id: string;
}

/** One shoot: what it is, its plans with every version, what was metered, what was shot and picked. */
export function WholeShoot({ bench, files, news, library, now, id }: WholeProps) {
  const { whole, trouble, refresh } = useWhole(bench, library, id);
  const fileNews = useStore(news);
  const back = useRef<HTMLButtonElement>(null);
  useEffect(() => back.current?.focus({ preventScroll: true }), []);
  const draft = whole === null ? null : draftOf(library, scheduler, whole.shoot);
  useEffect(() => {
    if (whole !== null) draft?.meet(whole.shoot);
  }, [draft, whole]);
  return (
    <main class="shoots whole-shoot">
      <PageHead
        bench={bench}
        heading={draft === null ? <h1>Shoot</h1> : <ShootTitle draft={draft} />}
        back={
          <button ref={back} type="button" onClick={() => bench.view.update({ openShoot: null })}>
            all shoots
          </button>
        }
      >
        <BackToPlan bench={bench} />
      </PageHead>
      {fileNews !== null && <Problems news={fileNews} onClose={() => news.set(null)} />}
      {trouble !== null && (
        <p class="alert" role="alert">
          {trouble}{" "}
          <button type="button" onClick={() => void refresh()}>
            try again
          </button>
        </p>
      )}
      {whole !== null && draft !== null && (
        <Parts {...{ bench, files, news, library, now, whole, draft }} refresh={() => void refresh()} />
      )}
    </main>
  );
}

function useWhole(bench: Bench, library: KeptLibrary, id: string) {
  const [whole, setWhole] = useState<ShootWhole | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const asked = useRef(0);
  async function refresh() {
    const turn = ++asked.current;
    try {
      const next = await library.whole(id);
      if (turn !== asked.current) return;
      setWhole(next);
      setTrouble(null);
    } catch (error) {
      if (turn === asked.current) setTrouble(troubleOf(error));
    }
  }
  useEffect(() => {
    void refresh();
    return () => {
      asked.current++;
    };
  }, [library, id]);
  useLibraryNews(bench, () => void refresh(), id);
  return { whole, trouble, refresh };
}

interface PartsProps extends Omit<WholeProps, "id"> {
  readonly whole: ShootWhole;
  readonly draft: ShootDraft;
  readonly refresh: () => void;
}

/** The parts beside each other; or two states of its plans, or one planned anew, in place of them. */
function Parts({ bench, files, news, library, now, whole, draft, refresh }: PartsProps) {
  const plans = usePlans(files, whole.plans);
  const [beside, setBeside] = useState<Beside | null>(null);
  const isBack = useRef(false);

  /** Loaded before it is shown; what cannot be read is said in place. */
  function show(heading: string, load: Promise<Beside | null>): void {
    news.set(null);
    load.then(setBeside, (error: unknown) =>
      news.set({ heading, problems: [{ path: "plan", what: troubleOf(error) }] }),
    );
  }
  const planAt = (state: PlanState) => planOf(state, library, files.glance);

  async function besideOf(older: PlanState, newer: PlanState): Promise<Beside> {
    const [before, after] = await Promise.all([planAt(older), planAt(newer)]);
    return {
      kind: "compare",
      before: { name: older.name, plan: before },
      after: { name: newer.name, plan: after },
    };
  }

  async function openVersion(version: PlanVersion, of: PlanInShoot): Promise<null> {
    await files.newPlan(await planAt(stateOf(of, version)));
    return null;
  }

  if (beside !== null)
    return (
      <BesidePart
        bench={bench}
        beside={beside}
        rooms={knownRooms(whole.plans, plans)}
        leave={() => {
          isBack.current = true;
          setBeside(null);
        }}
        take={(plan) => void files.newPlan(plan)}
      />
    );
  return (
    <div class="whole-columns">
      <div class="whole-side">
        <ShootFieldsForm draft={draft} />
        <WholeActs bench={bench} library={library} draft={draft} />
      </div>
      <div class="whole-middle">
        <PlansOfShoot
          {...{ bench, files, library, now, whole, plans, refresh }}
          hasKeys={isBack.current}
          compare={(...pair) => show("They are not put side by side", besideOf(...pair))}
          again={(state, title) =>
            show(
              "It is not planned again",
              planAt(state).then((plan) => ({ kind: "again", title, plan })),
            )
          }
          openVersion={(version, of) => show("No copy is opened", openVersion(version, of))}
        />
        <ReadingsTable bench={bench} inShoot={whole.plans} plans={plans} />
      </div>
      <ShootFrames
        bench={bench}
        library={library}
        shoot={whole.shoot.id}
        many={whole.frames}
        plans={whole.plans}
      />
    </div>
  );
}
