import { useEffect, useRef } from "preact/hooks";
import type { Bench } from "./bench.ts";
import { PAGES } from "./guide-pages.ts";
import { Blocks, type Go } from "./guide-parts.tsx";
import { CONTENTS, type GuideAt } from "./guide-places.ts";
import { useStore } from "./hooks.ts";
import { PageHead, useEscape } from "./page-head.tsx";

const START: GuideAt = { page: CONTENTS, part: "", from: "plan" };
const NAMES = [...PAGES.keys()].filter((name) => name !== CONTENTS);

/** The guide, a page at a time: what is written in docs/guide, with nothing asked of any network. */
export function GuidePage({ bench }: { bench: Bench }) {
  const { guide = START } = useStore(bench.view);
  const page = PAGES.has(guide.page) ? guide.page : CONTENTS;
  const text = PAGES.get(page);
  const title = useRef<HTMLHeadingElement>(null);
  const back = () => bench.view.update({ screen: guide.from });
  const go: Go = (to, part) => bench.view.update({ guide: { ...guide, page: to === "" ? page : to, part } });
  useEffect(() => {
    const heading = guide.part === "" ? null : document.getElementById(guide.part);
    if (heading === null) scrollTo(0, 0);
    (heading ?? title.current)?.focus();
  }, [page, guide.part]);
  useEscape(back);
  return (
    <main class="guide">
      <PageHead
        bench={bench}
        heading={text?.title ?? "Guide"}
        title={title}
        {...(page === CONTENTS ? {} : { about: "Guide" })}
        back={
          <button type="button" onClick={back}>
            back
          </button>
        }
      />
      <nav class="guide-list" aria-label="Guide">
        <ul>
          {[CONTENTS, ...NAMES].map((name) => (
            <li key={name}>
              <button
                type="button"
                aria-current={name === page ? "page" : undefined}
                onClick={() => go(name, "")}
              >
                {PAGES.get(name)?.title}
              </button>
            </li>
          ))}
        </ul>
      </nav>
      <article class="guide-text">
        <Blocks blocks={text?.blocks ?? []} go={go} />
        <Onward page={page} go={go} />
      </article>
    </main>
  );
}

function Onward({ page, go }: { page: string; go: Go }) {
  const next = NAMES[NAMES.indexOf(page) + 1];
  if (next === undefined) return null;
  return (
    <p>
      <button type="button" onClick={() => go(next, "")}>
        on to: {PAGES.get(next)?.title}
      </button>
    </p>
  );
}
