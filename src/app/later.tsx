import type { FunctionComponent } from "preact";
import { useEffect, useState } from "preact/hooks";
import type { Bench } from "./bench.ts";
import { BackToPlan } from "./page-head.tsx";

/** A screen whose code comes when it is first shown: what the first look at a plan needs is less to load. Where it does
 * not come, that is said, and it is asked for again by whoever wants it. */
export function later<Props extends { readonly bench: Bench }>(
  load: () => Promise<FunctionComponent<Props>>,
): FunctionComponent<Props> {
  let loaded: FunctionComponent<Props> | null = null;
  return function Later(props: Props) {
    const [Screen, show] = useState(() => loaded);
    const [tries, setTries] = useState(0);
    const [isMissing, setMissing] = useState(false);
    useEffect(() => {
      if (Screen !== null) return;
      let isHere = true;
      setMissing(false);
      load().then(
        (screen) => {
          loaded = screen;
          if (isHere) show(() => screen);
        },
        () => isHere && setMissing(true),
      );
      return () => {
        isHere = false;
      };
    }, [Screen, tries]);
    if (Screen !== null) return <Screen {...props} />;
    return isMissing ? <Missing bench={props.bench} again={() => setTries(tries + 1)} /> : null;
  };
}

/** Where the program was renewed or is away, its parts lie under other names, or nowhere. A whole page that is missing
 * leads back to the plan. */
function Missing({ bench, again }: { bench: Bench; again: () => void }) {
  const isPage = bench.view.get().screen !== "plan";
  const Heading = isPage ? "h1" : "h2";
  const said = (
    <section class="news" role="alert" aria-labelledby="missing-title">
      <Heading id="missing-title" class="alert">
        This part of Tapemark could not be loaded
      </Heading>
      <p>
        The server that has it does not answer, or was renewed since this page was opened. What you work on is
        kept.
      </p>
      <p class="row">
        <button type="button" onClick={again}>
          try again
        </button>
        <button type="button" onClick={() => location.reload()}>
          load the page anew
        </button>
        {isPage && <BackToPlan bench={bench} />}
      </p>
    </section>
  );
  return isPage ? <main class="missing">{said}</main> : said;
}
