import { useRef } from "preact/hooks";
import { type Dial, wattSecondsText, writePower } from "../plan/index.ts";

interface DialSliderProps {
  readonly name: string;
  readonly stopsDown: number;
  readonly dial: Dial;
  readonly full_Ws: number | null;
  /** the power in words */
  readonly said: string;
  readonly put: (stopsDown: number) => string | null;
  readonly letGo: () => void;
}

/** Labels stand at most this close, as shares of the scale. */
const CLOSEST = 0.13;

/** The dial laid out straight: full power on the right, a mark at each full stop below it. */
export function DialSlider({ name, stopsDown, dial, full_Ws, said, put, letGo }: DialSliderProps) {
  // a key that is held down is one step, as a drag is
  const byKey = useRef(false);
  if (dial.range === 0) return null;
  const marks = Array.from({ length: Math.floor(dial.range) + 1 }, (_, down) => down);
  const each = Math.ceil(CLOSEST * dial.range);
  return (
    <div class="dial">
      <input
        type="range"
        aria-label={`dial of ${name}`}
        aria-valuetext={said}
        min={-dial.range}
        max={0}
        step={dial.step}
        value={-stopsDown}
        onInput={(event) => put(-event.currentTarget.valueAsNumber)}
        onChange={() => !byKey.current && letGo()}
        onKeyUp={() => {
          byKey.current = false;
          letGo();
        }}
        onKeyDown={(event) => {
          byKey.current = true;
          const way = { PageUp: -1, PageDown: 1 }[event.key];
          if (way === undefined) return;
          // a whole stop, whatever the step is
          event.preventDefault();
          put(Math.min(dial.range, Math.max(0, stopsDown + way)));
        }}
      />
      <div class="dial-marks" aria-hidden="true">
        {marks.map((down) => (
          <span key={down} style={{ left: `${100 * (1 - down / dial.range)}%` }}>
            {down % each === 0 ? markText(down, dial, full_Ws) : ""}
          </span>
        ))}
      </div>
    </div>
  );
}

function markText(down: number, dial: Dial, full_Ws: number | null): string {
  if (dial.marked === "fractions") return down === 0 ? "1" : `1/${2 ** down}`;
  if (dial.marked === "wattSeconds" && full_Ws !== null)
    return wattSecondsText(full_Ws * 2 ** -down).replace(" Ws", "");
  return writePower(down, { marked: "stops" }, null).replace(".0", "");
}
