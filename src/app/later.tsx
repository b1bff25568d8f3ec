import type { FunctionComponent } from "preact";
import { useEffect, useState } from "preact/hooks";

/** A screen whose code comes when it is first shown: what the first look at a plan needs is less to load. Where it does
 * not come, that is said, and it is asked for again by whoever wants it. */
export function later<Props extends object>(
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
    return isMissing ? <Missing again={() => setTries(tries + 1)} /> : null;
  };
}

/** Where the program was renewed or is away, its parts lie under other names, or nowhere. */
function Missing({ again }: { again: () => void }) {
  return (
    <section class="news" role="alert" aria-labelledby="missing-title">
      <h2 id="missing-title" class="alert">
        This part of Tapemark could not be loaded
      </h2>
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
      </p>
    </section>
  );
}
