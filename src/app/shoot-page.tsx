import { useEffect, useRef } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import type { SessionState } from "../workbench/index.ts";
import { AloneNotice } from "./alone-notice.tsx";
import type { Bench, ShootPart } from "./bench.ts";
import { Either } from "./edge-settings.tsx";
import type { FileNews } from "./file-actions.ts";
import { useStore } from "./hooks.ts";
import { PageHead, UndoPlan } from "./page-head.tsx";
import { Problems } from "./problems.tsx";
import { Readings } from "./readings-part.tsx";
import { Frames } from "./shoot-frames.tsx";
import type { Store } from "./store.ts";

interface ShootPageProps {
  readonly bench: Bench;
  readonly news: Store<FileNews | null>;
  readonly state: SessionState;
  /** the plan whose light is shown: the plan, or one light of it */
  readonly shown: Plan;
}

/** What the camera saw, beside what was planned; and the meter's word on it. */
export function ShootPage({ bench, news, state, shown }: ShootPageProps) {
  const view = useStore(bench.view);
  const fileNews = useStore(news);
  const title = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    // whoever asked for what mends it is led there
    if (view.shoot !== "fix") title.current?.focus();
  }, []);
  return (
    <main class="shoot">
      <PageHead
        bench={bench}
        heading="Shoot"
        title={title}
        about={state.plan.title}
        parts={<Parts bench={bench} part={view.shoot} />}
      >
        <UndoPlan bench={bench} />
      </PageHead>
      {fileNews !== null && <Problems news={fileNews} onClose={() => news.set(null)} />}
      <AloneNotice bench={bench} plan={state.plan} />
      {view.shoot === "readings" ? (
        <Readings bench={bench} plan={state.plan} />
      ) : (
        <Frames bench={bench} plan={shown} />
      )}
    </main>
  );
}

function Parts({ bench, part }: { bench: Bench; part: ShootPart }) {
  const to = (shoot: ShootPart) => () => bench.view.update({ shoot });
  return (
    <fieldset class="row shoot-parts">
      <legend class="visually-hidden">what is looked at</legend>
      <Either text="test frames" on={part !== "readings"} choose={to("frames")} />
      <Either text="meter readings" on={part === "readings"} choose={to("readings")} />
    </fieldset>
  );
}
