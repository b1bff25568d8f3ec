import { useEffect, useState } from "preact/hooks";
import type { SessionState } from "../workbench/index.ts";
import type { Bench } from "./bench.ts";
import { Step } from "./edge-job.tsx";
import { useKeysBack, useStore } from "./hooks.ts";
import { keepVersion } from "./shoots-keep.ts";
import { KeepVersion } from "./shoots-name-field.tsx";
import { useLibraryNews } from "./shoots-news.ts";
import { troubleOf } from "./trouble.ts";
import { count } from "./wording.ts";

/** What is kept of the plan on the table, for rebuilding it: versions under names, in its shoot. */
export function RecordStep({ bench }: { bench: Bench }) {
  const state = useStore(bench.session);
  const { record, refresh } = useRecord(bench, state);
  const [isNaming, setNaming] = useState(false);
  const [trouble, setTrouble] = useState<string | null>(null);
  const opener = useKeysBack<HTMLButtonElement>(isNaming);
  const { library } = bench;
  if (library === null)
    return (
      <Step number={6} word="record">
        every step is kept; save makes a file
        <Sheets bench={bench} />
      </Step>
    );
  const keep = (name: string) =>
    keepVersion(bench, library, state.key, name).then(
      () => {
        setNaming(false);
        setTrouble(null);
        bench.say.set(`version kept${name === "" ? "" : `: ${name}`}`);
        refresh();
      },
      (error: unknown) => setTrouble(troubleOf(error)),
    );
  const many = record?.versions ?? 0;
  return (
    <Step number={6} word="record">
      {many === 0 ? "every step is kept; no version yet" : `${count(many, "version")} kept`}
      {isNaming ? (
        <KeepVersion
          of={state.plan.title}
          next={(record?.last ?? 0) + 1}
          keep={keep}
          leave={() => setNaming(false)}
        />
      ) : (
        <button
          ref={opener}
          type="button"
          class="line"
          disabled={record === null}
          onClick={() => setNaming(true)}
        >
          keep a version
        </button>
      )}
      <Sheets bench={bench} />
      {trouble !== null && (
        <span class="alert line" role="alert">
          {trouble}
        </span>
      )}
      {record !== null && (
        <button
          type="button"
          class="line"
          onClick={() => bench.view.update({ screen: "shoots", openShoot: record.shoot })}
        >
          its shoot
        </button>
      )}
    </Step>
  );
}

/** To the record after the shoot and the contact sheet of moves, and to whether the file is good enough for its size. */
function Sheets({ bench }: { bench: Bench }) {
  return (
    <>
      <button type="button" class="line" onClick={() => bench.view.update({ screen: "record" })}>
        record and contact sheets
      </button>
      <button type="button" class="line" onClick={() => bench.view.update({ screen: "use" })}>
        final use
      </button>
    </>
  );
}

interface Record {
  readonly key: string;
  readonly shoot: string;
  readonly versions: number;
  /** number of the newest version */
  readonly last: number;
}

/** Asked for once a work is kept, and again where something may have changed; null while it is not known. */
function useRecord({ library, news }: Bench, { key, saving }: SessionState) {
  const [record, setRecord] = useState<Record | null>(null);
  const [turn, setTurn] = useState(0);
  const refresh = () => setTurn((n) => n + 1);
  useLibraryNews({ news }, refresh, record?.shoot ?? null);
  const isKept = key !== "" && saving.state === "saved";
  const isAsked = record?.key === key || isKept;
  useEffect(() => {
    if (library === null || !isAsked) return;
    let isHere = true;
    const look = async () => {
      const shoot = await library.shootOf(key);
      if (shoot === null) return;
      const { plans } = await library.whole(shoot);
      const versions = plans.find((plan) => plan.key === key)?.versions ?? [];
      const last = versions.at(-1)?.number ?? 0;
      if (isHere) setRecord({ key, shoot, versions: versions.length, last });
    };
    // a library that does not answer is said where the plan is kept
    look().catch(() => undefined);
    return () => {
      isHere = false;
    };
  }, [library, key, isAsked, turn]);
  return { record: record?.key === key ? record : null, refresh };
}
