import { useEffect, useRef, useState } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import type { PlanInShoot, PlanVersion, ShootWhole } from "../shoots/index.ts";
import type { Bench } from "./bench.ts";
import type { FileActions } from "./file-actions.ts";
import { useKeysBack, useMedia } from "./hooks.ts";
import type { KeptLibrary } from "./library-client.ts";
import { keepVersion } from "./shoots-keep.ts";
import { MovePlan } from "./shoots-move.tsx";
import { KeepVersion } from "./shoots-name-field.tsx";
import { nowOf, type PlanState, pairOf, pickTwo } from "./shoots-states.ts";
import { Versions } from "./shoots-versions.tsx";
import { SmallFloor } from "./start-drawing.tsx";
import { whenText } from "./start-words.ts";
import { troubleOf } from "./trouble.ts";
import { count } from "./wording.ts";

export interface PlansProps {
  readonly bench: Bench;
  readonly files: FileActions;
  readonly library: KeptLibrary;
  readonly now: () => Date;
  readonly whole: ShootWhole;
  readonly plans: ReadonlyMap<string, Plan | null>;
  readonly refresh: () => void;
  /** somebody comes back from what stood in place of the parts */
  readonly hasKeys: boolean;
  readonly compare: (before: PlanState, after: PlanState) => void;
  readonly again: (plan: PlanState, title: string) => void;
  readonly openVersion: (version: PlanVersion, of: PlanInShoot) => void;
}

/** The plans of a shoot with every version; two states of them are put side by side. */
export function PlansOfShoot(props: PlansProps) {
  const { hasKeys, whole } = props;
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    if (hasKeys) heading.current?.focus();
  }, []);
  const [picked, setPicked] = useState<readonly string[]>([]);
  const pair = pairOf(whole.plans, picked);
  const states = whole.plans.reduce((sum, { versions }) => sum + 1 + versions.length, 0);
  return (
    <section aria-labelledby="plans-title">
      <div class="section-head">
        <h2 ref={heading} id="plans-title" tabIndex={-1}>
          {whole.plans.length === 1 ? "Plan" : "Plans"}
        </h2>
        {states > 1 && (
          <span class="quiet small">
            {pair === null ? (
              "tick two states to put them side by side"
            ) : (
              <button type="button" class="begin" onClick={() => props.compare(...pair)}>
                put the two side by side
              </button>
            )}
          </span>
        )}
      </div>
      {whole.plans.length === 0 ? (
        <p class="quiet">None yet. Move one here from its own shoot: every plan that is kept lies in one.</p>
      ) : (
        <ul class="shoots-plans">
          {whole.plans.map((plan) => (
            <li key={plan.key}>
              <OnePlan
                {...props}
                inShoot={plan}
                picked={picked}
                pick={(id) => setPicked(pickTwo(picked, id))}
              />
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

interface OneProps extends PlansProps {
  readonly inShoot: PlanInShoot;
  readonly picked: readonly string[];
  readonly pick: (id: string) => void;
}

function OnePlan(props: OneProps) {
  const { bench, files, library, now, inShoot, plans, refresh } = props;
  const { key, readings, savedAt, title, versions } = inShoot;
  const isNarrow = useMedia("(max-width: 759px)");
  const [doing, setDoing] = useState<"version" | "move" | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const done = () => {
    setDoing(null);
    refresh();
  };
  const attempt = (act: Promise<unknown>) => {
    setTrouble(null);
    return act.then(done, (error: unknown) => setTrouble(troubleOf(error)));
  };
  const open = () => void files.openKept({ key, title, savedAt, isClash: false, place: "both" });
  const said = [
    `saved ${whenText(savedAt, now())}`,
    ...(readings > 0 ? [count(readings, "reading")] : []),
    ...(inShoot.isCalibrated ? ["calibrated"] : []),
    versions.length === 0 ? "no version kept" : count(versions.length, "version"),
  ];
  return (
    <article class="shoots-plan" aria-label={title}>
      <SmallFloor plan={plans.get(key) ?? null} size={isNarrow ? 72 : 132} />
      <div>
        <h3>{title}</h3>
        <p class="quiet small">{said.join(", ")}</p>
        {plans.get(key) === null && <p class="alert">it cannot be read; open it to see why</p>}
        <p class="row">
          <button type="button" onClick={open}>
            open<span class="visually-hidden"> {title}</span>
          </button>
          <Way
            text="keep a version"
            of={title}
            on={doing === "version"}
            choose={() => setDoing(doing === "version" ? null : "version")}
          />
          <button type="button" onClick={() => props.again(nowOf(inShoot), title)}>
            plan again elsewhere<span class="visually-hidden">: {title}</span>
          </button>
          <Way
            text="move"
            of={title}
            on={doing === "move"}
            choose={() => setDoing(doing === "move" ? null : "move")}
          />
        </p>
        {doing === "version" && (
          <KeepVersion
            of={title}
            next={(versions.at(-1)?.number ?? 0) + 1}
            keep={(name) => attempt(keepVersion(bench, library, key, name))}
            leave={() => setDoing(null)}
          />
        )}
        {doing === "move" && (
          <MovePlan
            library={library}
            title={title}
            from={props.whole.shoot.id}
            leave={() => setDoing(null)}
            move={(to) => void attempt(library.move(key, to))}
          />
        )}
        {trouble !== null && (
          <p class="alert" role="alert">
            {trouble}
          </p>
        )}
        <Versions
          {...props}
          hasOthers={props.whole.plans.length > 1}
          rename={(id, name) => attempt(library.renameVersion(id, name))}
        />
      </div>
    </article>
  );
}

function Way(props: { text: string; of: string; on: boolean; choose: () => void }) {
  const opener = useKeysBack<HTMLButtonElement>(props.on);
  return (
    <button ref={opener} type="button" aria-expanded={props.on} onClick={props.choose}>
      {props.text}
      <span class="visually-hidden">: {props.of}</span>
    </button>
  );
}
