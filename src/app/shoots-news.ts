import { useEffect, useRef } from "preact/hooks";
import type { Bench } from "./bench.ts";

/** A card of frames that comes in is one change, not fifty. */
const TOGETHER_MS = 200;

/** Calls when the library may have changed: it says so, or somebody is back at this window. Where a shoot is named, what is
 * told of others is left out. */
export function useLibraryNews(
  { news }: Pick<Bench, "news">,
  act: () => void,
  shoot: string | null = null,
): void {
  const latest = useRef(act);
  latest.current = act;
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const tell = () => {
      timer ??= setTimeout(() => {
        timer = undefined;
        latest.current();
      }, TOGETHER_MS);
    };
    const leave = news.subscribe((told) => {
      if (told.kind !== "shoots") return;
      if (shoot === null || told.shoot === null || told.shoot === shoot) tell();
    });
    addEventListener("focus", tell);
    return () => {
      clearTimeout(timer);
      leave();
      removeEventListener("focus", tell);
    };
  }, [news, shoot]);
}
