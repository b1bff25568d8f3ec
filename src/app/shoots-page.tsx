import type { ComponentChildren } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import type { Bench } from "./bench.ts";
import type { FileActions, FileNews } from "./file-actions.ts";
import { dayOf } from "./format-clock.ts";
import { useStore } from "./hooks.ts";
import type { KeptLibrary } from "./library-client.ts";
import { PageHead } from "./page-head.tsx";
import { BringIn } from "./shoots-archive.tsx";
import { foundIn } from "./shoots-found.ts";
import { KeptAt } from "./shoots-kept-at.tsx";
import { ShootsList } from "./shoots-list.tsx";
import { useLibraryNews } from "./shoots-news.ts";
import { Narrow } from "./shoots-search.tsx";
import { WholeShoot } from "./shoots-whole.tsx";
import type { Store } from "./store.ts";
import { troubleOf } from "./trouble.ts";

export interface ShootsProps {
  readonly bench: Bench;
  readonly files: FileActions;
  readonly news: Store<FileNews | null>;
  readonly now: () => Date;
}

/** The library: every shoot, or the one that is looked at. */
export function ShootsPage({ bench, files, news, now }: ShootsProps) {
  const { openShoot } = useStore(bench.view);
  const { library } = bench;
  if (library === null) return <NoLibrary bench={bench} />;
  if (openShoot !== null)
    return <WholeShoot key={openShoot} {...{ bench, files, news, library, now }} id={openShoot} />;
  return <AllShoots {...{ bench, library, now }} />;
}

function AllShoots(props: { bench: Bench; library: KeptLibrary; now: () => Date }) {
  const { bench, library, now } = props;
  const found = foundIn(library);
  const [trouble, setTrouble] = useState<string | null>(null);
  useEffect(() => void found.refresh(), [found]);
  useLibraryNews(bench, () => void found.refresh());
  const open = (id: string) => {
    found.isLeft = true;
    bench.view.update({ openShoot: id });
  };

  async function begin() {
    try {
      const shoot = await library.create({ date: dayOf(now()) });
      bench.view.update({ openShoot: shoot.id });
    } catch (error) {
      setTrouble(troubleOf(error));
    }
  }

  return (
    <main class="shoots">
      <Head bench={bench} isQuiet={found.isLeft}>
        <button type="button" class="begin" onClick={() => void begin()}>
          new shoot
        </button>
        <BringIn library={library} came={open} />
      </Head>
      {trouble !== null && (
        <p class="alert" role="alert">
          {trouble}
        </p>
      )}
      <div class="shoots-columns">
        <div class="shoots-side">
          <Narrow bench={bench} found={found} />
          <KeptAt library={library} now={now} />
        </div>
        <ShootsList bench={bench} found={found} open={open} />
      </div>
    </main>
  );
}

interface HeadProps {
  readonly bench: Bench;
  /** somebody comes back to what they had in hand: it is not led to the heading again */
  readonly isQuiet?: boolean;
  readonly children?: ComponentChildren;
}

function Head({ bench, isQuiet = false, children }: HeadProps) {
  const title = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    if (!isQuiet) title.current?.focus();
  }, []);
  return (
    <PageHead bench={bench} heading="Shoots" title={title}>
      <button type="button" onClick={() => bench.view.update({ screen: "start" })}>
        all plans
      </button>
      {children}
    </PageHead>
  );
}

function NoLibrary({ bench }: { bench: Bench }) {
  return (
    <main class="shoots">
      <Head bench={bench} />
      <div class="shoots-none">
        <p>
          Shoots are kept by the program on your own machine. Start it with <code>tapemark open</code>, and
          they stand here: plans with every version, meter readings, test frames, what was picked.
        </p>
        <p>
          The plans that this browser keeps are on the{" "}
          <button type="button" onClick={() => bench.view.update({ screen: "start" })}>
            first page
          </button>
          .
        </p>
      </div>
    </main>
  );
}
