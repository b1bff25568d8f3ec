import { useEffect, useState } from "preact/hooks";
import { checkPlan, type Plan, parsePlan } from "../plan/index.ts";
import type { FoundWork, WorkGlance } from "../workbench/index.ts";
import type { Bench } from "./bench.ts";
import { UnitsAndTheme } from "./edge-settings.tsx";
import { EXAMPLES } from "./examples.ts";
import type { FileActions, FileNews } from "./file-actions.ts";
import { useStore } from "./hooks.ts";
import { Problems } from "./problems.tsx";
import { SmallFloor } from "./start-drawing.tsx";
import { EmptyRoom } from "./start-empty-room.tsx";
import { contentsLine, titleAndLine, whenText } from "./start-words.ts";
import type { Store } from "./store.ts";

interface StartProps {
  readonly bench: Bench;
  readonly files: FileActions;
  readonly news: Store<FileNews | null>;
  readonly now: () => Date;
}

/** So many of the others at first, and so many more on request: of each that is shown the plan is read. */
const SHOWN = 12;
const MORE = 48;

/** What to work on: the last plan, the others that are kept, an empty room, a file, an example. */
export function StartPage({ bench, files, news, now }: StartProps) {
  const fileNews = useStore(news);
  const kept = useKept(files);
  const [damaged, setDamaged] = useState<ReadonlySet<string>>(new Set());
  const [shown, setShown] = useState(SHOWN);
  const last = kept?.find(({ key }) => !damaged.has(key));
  const others = (kept ?? []).filter((work) => work !== last);
  const hidden = others.length - shown;
  const noteDamage = (key: string) => setDamaged((known) => new Set(known).add(key));
  return (
    <main class="start">
      <header class="start-head">
        <h1>Tapemark</h1>
        <p class="quiet">Portrait light, worked out before anyone lifts a stand.</p>
        <button type="button" onClick={() => bench.view.update({ screen: "shoots", openShoot: null })}>
          Shoots
        </button>
        <div class="start-settings">
          <UnitsAndTheme bench={bench} />
        </div>
      </header>
      {fileNews !== null && <Problems news={fileNews} onClose={() => news.set(null)} />}
      <div class={kept === null || kept.length === 0 ? "start-columns is-first" : "start-columns"}>
        {kept !== null && kept.length > 0 && (
          <div class="start-kept">
            {last !== undefined && (
              <section aria-labelledby="start-last">
                <h2 id="start-last">go on with the last plan</h2>
                <KeptPlan key={last.key} {...{ bench, files, noteDamage, now }} work={last} size={220} />
              </section>
            )}
            {others.length > 0 && (
              <section aria-labelledby="start-others">
                <h2 id="start-others">other plans that are kept</h2>
                <ul class="plans">
                  {others.slice(0, shown).map((work) => (
                    <li key={work.key}>
                      <KeptPlan {...{ bench, files, noteDamage, now, work }} size={96} />
                    </li>
                  ))}
                </ul>
                {hidden > 0 && (
                  <p class="start-more">
                    <button type="button" onClick={() => setShown(shown + MORE)}>
                      {Math.min(hidden, MORE)} more
                    </button>{" "}
                    <span class="quiet">
                      of {hidden} older ones; Shoots finds them by words, light, room and day
                    </span>
                  </p>
                )}
              </section>
            )}
          </div>
        )}
        <div class="start-new">
          <EmptyRoom bench={bench} files={files} news={news} />
          <section aria-labelledby="start-file">
            <h2 id="start-file">a plan file</h2>
            <p>
              <button type="button" onClick={() => files.openFile()}>
                open a file
              </button>{" "}
              <span class="quiet">or drop one anywhere on this window</span>
            </p>
          </section>
        </div>
      </div>
      <nav aria-labelledby="start-examples">
        <h2 id="start-examples">examples</h2>
        <p class="quiet">
          From the manual: patterns as US Navy NAVEDTRA 14209, chapter 7, and US Army SS0510 describe them.
        </p>
        <ul class="plans">
          {EXAMPLES.map((example) => (
            <li key={example.name}>
              <Example bench={bench} files={files} {...example} />
            </li>
          ))}
        </ul>
      </nav>
    </main>
  );
}

/** Null until it is known what is kept. Looked up again when somebody comes back to the window. */
function useKept(files: FileActions): readonly FoundWork[] | null {
  const [kept, setKept] = useState<readonly FoundWork[] | null>(null);
  const { reach } = useStore(files.keeping);
  useEffect(() => {
    let isHere = true;
    const look = () =>
      void files
        .listKept()
        .catch(() => [])
        .then((works) => isHere && setKept(works));
    look();
    addEventListener("focus", look);
    return () => {
      isHere = false;
      removeEventListener("focus", look);
    };
  }, [files, reach]);
  return kept;
}

const PLACE = { both: "", near: "in this browser only", far: "with the server only" };

interface KeptProps extends Omit<StartProps, "news"> {
  readonly work: FoundWork;
  readonly size: number;
  /** called once it is known that it cannot be read */
  readonly noteDamage: (key: string) => void;
}

function KeptPlan({ bench, files, noteDamage, now, work, size }: KeptProps) {
  const { units } = useStore(bench.view);
  const { reach } = useStore(files.keeping);
  const { plan, isDamaged } = useGlance(files, work);
  useEffect(() => {
    if (isDamaged) noteDamage(work.key);
  }, [isDamaged, work.key]);
  const place = reach === "here" ? PLACE[work.place] : "";
  const when = [whenText(work.savedAt, now()), place].filter((part) => part !== "").join(", ");
  return (
    <button type="button" class="plan-choice" onClick={() => void files.openKept(work)}>
      <SmallFloor plan={plan} size={size} />
      <span>
        <span class="title">{work.title}</span>
        {when !== "" && <span class="quiet">{when}</span>}
        {plan !== null && <span class="quiet">{contentsLine(plan, units)}</span>}
        {isDamaged && <span class="alert">damaged: it cannot be read; choose it to see why</span>}
        {work.isClash && <span class="alert">changed in two places: choose it to say which stays</span>}
      </span>
    </button>
  );
}

/** A kept work as it is shown; its plan is null until it is there, and where it cannot be read. */
function useGlance(files: FileActions, work: FoundWork): { plan: Plan | null; isDamaged: boolean } {
  const [seen, setSeen] = useState<{ plan: Plan | null; isDamaged: boolean }>({
    plan: null,
    isDamaged: false,
  });
  useEffect(() => {
    let isHere = true;
    const take = (glance: WorkGlance | null) => {
      const checked = checkPlan(glance?.plan);
      if (isHere) setSeen({ plan: checked.ok ? checked.plan : null, isDamaged: glance?.isDamaged ?? false });
    };
    files.glance(work.key).then(take, () => undefined);
    return () => {
      isHere = false;
    };
  }, [files, work.key, work.savedAt]);
  return seen;
}

const examplePlans = new Map<string, Plan | null>();
function examplePlan(name: string, text: string): Plan | null {
  let plan = examplePlans.get(name);
  if (plan === undefined) {
    const parsed = parsePlan(text);
    plan = parsed.ok ? parsed.plan : null;
    examplePlans.set(name, plan);
  }
  return plan;
}

function Example(props: { bench: Bench; files: FileActions; name: string; text: string }) {
  const { units } = useStore(props.bench.view);
  const plan = examplePlan(props.name, props.text);
  const [title, line] = titleAndLine(plan?.title ?? props.name);
  return (
    <button type="button" class="plan-choice" onClick={() => void props.files.openExample(props.name)}>
      <SmallFloor plan={plan} size={96} />
      <span>
        <span class="title">{title}</span>
        {line !== null && <span class="line">{line}</span>}
        {plan !== null && <span class="quiet">{contentsLine(plan, units)}</span>}
      </span>
    </button>
  );
}
