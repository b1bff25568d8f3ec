import type { ComponentChildren } from "preact";
import type { Bench } from "./bench.ts";
import { NO_GUESS_YET } from "./guess.ts";
import { GuideLink } from "./guide-link.tsx";
import { useStore } from "./hooks.ts";
import { themeInForce } from "./preferences.ts";

export function Either({ text, on, choose }: { text: ComponentChildren; on: boolean; choose: () => void }) {
  return (
    <button type="button" aria-pressed={on} onClick={choose}>
      {text}
    </button>
  );
}

/** What is learnt with: a guess before the answer, and the two pages that explain. */
export function Learn({ bench }: { bench: Bench }) {
  const view = useStore(bench.view);
  return (
    <fieldset class="row">
      <legend class="visually-hidden">learn</legend>
      <button type="button" onClick={() => bench.view.update({ screen: "direction" })}>
        direction
      </button>
      <button type="button" onClick={() => bench.view.update({ screen: "power" })}>
        power<span class="visually-hidden">, explained</span>
      </button>
      <Either
        text="guess"
        on={view.guess !== null}
        choose={() => bench.view.update({ guess: view.guess === null ? NO_GUESS_YET : null })}
      />
      <GuideLink bench={bench} />
    </fieldset>
  );
}

export function LargeSwitch({ bench }: { bench: Bench }) {
  const { large } = useStore(bench.view);
  return (
    <div class="row">
      <Either text="large numbers" on={large} choose={() => bench.view.update({ large: !large })} />
    </div>
  );
}

/** What every page has: units and theme, and the guide where it does not stand with what is learnt with. */
export function UnitsAndTheme({ bench }: { bench: Bench }) {
  const view = useStore(bench.view);
  const theme = themeInForce(view);
  return (
    <>
      <fieldset class="row">
        <legend class="visually-hidden">units</legend>
        <Either
          text="metres"
          on={view.units === "metric"}
          choose={() => bench.view.update({ units: "metric" })}
        />
        <Either text="feet" on={view.units === "feet"} choose={() => bench.view.update({ units: "feet" })} />
      </fieldset>
      <fieldset class="row">
        <legend class="visually-hidden">theme</legend>
        <Either text="light" on={theme === "light"} choose={() => bench.view.update({ theme: "light" })} />
        <Either text="dim" on={theme === "dim"} choose={() => bench.view.update({ theme: "dim" })} />
      </fieldset>
      {view.screen !== "guide" && view.screen !== "plan" && <GuideLink bench={bench} />}
    </>
  );
}
