import type { Theme, View } from "./bench.ts";
import { PLAIN_LOOK, readLook } from "./frame-look.ts";
import { Store } from "./store.ts";

const THEME = "tapemark.theme";
const UNITS = "tapemark.units";
const LOOK = "tapemark.look";

const INITIAL: View = {
  screen: "plan",
  shoot: "frames",
  gear: "shelf",
  openShoot: null,
  selected: null,
  also: [],
  person: 0,
  units: "metric",
  theme: null,
  large: false,
  showPower: true,
  showHold: false,
  showDirection: true,
  layerHeight_m: null,
  layerAcross_m: null,
  reference: null,
  alone: null,
  look: PLAIN_LOOK,
  guess: null,
};

/** What is on screen, with theme, units and look as they were left; storage that is closed is no hindrance. */
export function openView(): Store<View> {
  const theme = recall(THEME);
  const view = new Store<View>({
    ...INITIAL,
    theme: theme === "light" || theme === "dim" ? theme : null,
    units: recall(UNITS) === "feet" ? "feet" : "metric",
    look: readLook(recall(LOOK)),
  });
  view.subscribe(() => {
    const { theme: chosen, units, look } = view.get();
    keep(UNITS, units);
    keep(LOOK, JSON.stringify(look));
    if (chosen === null) return;
    keep(THEME, chosen);
    document.documentElement.dataset.theme = chosen;
  });
  return view;
}

/** The theme that is in force, chosen or preferred. */
export function themeInForce(view: View): Theme {
  if (view.theme !== null) return view.theme;
  return matchMedia("(prefers-color-scheme: dark)").matches ? "dim" : "light";
}

export function recall(key: string): string | null {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
}

export function keep(key: string, value: string): void {
  try {
    localStorage.setItem(key, value);
  } catch {
    // a closed storage forgets; nothing else depends on it
  }
}
