import type { FunctionComponent } from "preact";
import { useEffect, useState } from "preact/hooks";

/** A screen whose code comes when it is first shown: what the first look at a plan needs is less to load. */
export function later<Props extends object>(
  load: () => Promise<FunctionComponent<Props>>,
): FunctionComponent<Props> {
  let loaded: FunctionComponent<Props> | null = null;
  return function Later(props: Props) {
    const [Screen, show] = useState(() => loaded);
    useEffect(() => {
      if (Screen !== null) return;
      void load().then((screen) => {
        loaded = screen;
        show(() => screen);
      });
    }, [Screen]);
    return Screen && <Screen {...props} />;
  };
}
