import { useEffect, useMemo, useState } from "preact/hooks";
import type { FrameRow, PlanInShoot, ShootWhole } from "../shoots/index.ts";
import { makeRecord } from "../workbench/index.ts";
import type { Bench } from "./bench.ts";
import { download, fileStem } from "./file-actions.ts";
import { useStore } from "./hooks.ts";
import type { KeptLibrary } from "./library-client.ts";
import { recordFrames, recordPdf } from "./record-client.ts";
import { SheetRun } from "./record-run.ts";
import { Working } from "./record-working.tsx";
import { Cover } from "./shoots-list.tsx";
import { useLibraryNews } from "./shoots-news.ts";
import { frameLight, frameTime, starWords, titleOf } from "./shoots-words.ts";
import { troubleOf } from "./trouble.ts";
import { count } from "./wording.ts";

/** The record sheet of the plan on the table, and what will be on it. */
export function RecordPart({ bench }: { readonly bench: Bench }) {
  const { library } = bench;
  const run = useMemo(() => new SheetRun(), []);
  useEffect(() => () => run.leave(), [run]);
  return (
    <section class="record-part" aria-labelledby="record-title">
      <h2 id="record-title">Record sheet</h2>
      <p class="quiet">
        Planned beside set, metered and taken, and how everything stood: enough to build it again from paper.
      </p>
      {library === null ? <FromPlan bench={bench} run={run} /> : <Kept {...{ bench, library, run }} />}
      <Working run={run} />
    </section>
  );
}

/** Without the program behind the page: what the plan itself knows. */
function FromPlan({ bench, run }: { readonly bench: Bench; readonly run: SheetRun }) {
  const { plan } = useStore(bench.session);
  const { units } = useStore(bench.view);
  const save = () =>
    run.start("the record sheet", async (work) => {
      const options = { paper: units === "feet" ? "letter" : "a4", units } as const;
      const on = { planned: null, shoot: null, photos: [] };
      const pages = await makeRecord(bench.trials, plan, on, options, work);
      const stem = fileStem(plan.title);
      for (const [i, page] of pages.entries())
        download(`${stem}-record${i === 0 ? "" : `-${i + 1}`}.svg`, "image/svg+xml", page);
      return `The record sheet is saved, ${count(pages.length, "page")}.`;
    });
  return (
    <>
      <ul class="record-on">
        <li>
          {plan.readings.length === 0 ? "no meter readings" : count(plan.readings.length, "meter reading")}
        </li>
        <li>
          no photographs and no earlier versions: those are kept by the program that{" "}
          <code>tapemark open</code> starts, and it makes the PDF
        </li>
      </ul>
      <p class="row">
        <button type="button" class="begin" onClick={() => void save()}>
          record sheet, SVG
        </button>
      </p>
    </>
  );
}

interface KeptProps {
  readonly bench: Bench;
  readonly library: KeptLibrary;
  readonly run: SheetRun;
}

function Kept({ bench, library, run }: KeptProps) {
  const { key, plan, saving } = useStore(bench.session);
  const { units } = useStore(bench.view);
  const { on, trouble } = useOnRecord(bench, library, key, saving.state);
  if (trouble !== null)
    return (
      <p class="alert" role="alert">
        {trouble}
      </p>
    );
  if (on === null)
    return <p class="quiet">The plan is not kept yet: change something in it, and it has a shoot.</p>;
  const { shoot, work, frames } = on;
  const save = () =>
    run.start("the record sheet", async (work) => {
      const pdf = await recordPdf(shoot.shoot.id, key, units, work);
      download(`${fileStem(plan.title)}-record.pdf`, "application/pdf", pdf);
      return "The record sheet is saved.";
    });
  return (
    <>
      <p>
        Shoot: {titleOf(shoot.shoot)}{" "}
        <button
          type="button"
          class="line"
          onClick={() => bench.view.update({ screen: "shoots", openShoot: shoot.shoot.id })}
        >
          open this shoot
        </button>
      </p>
      <Pick frames={frames} />
      <ul class="record-on">
        <li>{work.readings === 0 ? "no meter readings" : count(work.readings, "meter reading")}</li>
        <li>{versionsText(work, frames[0] ?? null)}</li>
      </ul>
      <p class="row">
        <button type="button" class="begin" onClick={() => void save()}>
          record sheet, PDF
        </button>
      </p>
    </>
  );
}

function Pick({ frames }: { readonly frames: readonly FrameRow[] }) {
  const [pick, ...others] = frames;
  if (pick === undefined)
    return (
      <p class="quiet">
        No photograph was taken under this plan yet. With one, planned and taken stand beside each other.
      </p>
    );
  const marks = [...(pick.stars > 0 ? [starWords(pick.stars)] : []), ...(pick.isSelect ? ["select"] : [])];
  return (
    <div class="record-pick">
      <Cover id={pick.hasThumbnail ? pick.id : null} />
      <div>
        <p>
          the pick: <span class="file-name">{pick.name}</span>
        </p>
        <p>
          {[frameTime(pick), ...marks].join(", ")} <span class="quiet">{frameLight(pick)}</span>
        </p>
        {marks.length === 0 && (
          <p class="quiet small">the last one taken: give stars or a select to choose another</p>
        )}
        {others.length > 0 && <p class="quiet">and {count(others.length, "other photograph")}, small</p>}
      </div>
    </div>
  );
}

/** From which state of the plan changes are told. */
function versionsText({ versions }: PlanInShoot, pick: FrameRow | null): string {
  const shotOn = versions.find(({ id }) => id === pick?.version);
  const first = versions.find(({ id }) => id !== shotOn?.id);
  if (first === undefined || (shotOn !== undefined && first.number > shotOn.number))
    return "no earlier version of the plan to tell changes from";
  return `changes from version ${first.number}, ${first.name}`;
}

interface OnPaper {
  readonly shoot: ShootWhole;
  readonly work: PlanInShoot;
  /** as they will be printed, the pick first */
  readonly frames: readonly FrameRow[];
}

/** Null while it is not known, or the plan is not kept. */
function useOnRecord(bench: Bench, library: KeptLibrary, key: string, saving: string) {
  const [on, setOn] = useState<OnPaper | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [turn, setTurn] = useState(0);
  useLibraryNews(bench, () => setTurn((n) => n + 1), on?.shoot.shoot.id ?? null);
  const isSettled = saving === "saved" || on !== null;
  useEffect(() => {
    if (!isSettled || key === "") return;
    let isHere = true;
    const look = async () => {
      const id = await library.shootOf(key);
      if (id === null) return;
      const shoot = await library.whole(id);
      const work = shoot.plans.find((plan) => plan.key === key);
      const frames = await recordFrames(id, key);
      if (isHere && work !== undefined) setOn({ shoot, work, frames });
      if (isHere) setTrouble(null);
    };
    look().catch((error: unknown) => isHere && setTrouble(troubleOf(error)));
    return () => {
      isHere = false;
    };
  }, [library, key, isSettled, turn]);
  return { on, trouble };
}
