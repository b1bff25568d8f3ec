import {
  type Output,
  outsideDial,
  readPower,
  scaledOutput,
  wattSecondsText,
  writePower,
} from "../plan/index.ts";
import { formatLength } from "../units/index.ts";
import { fNumberText, type Parsed, parseFNumber, parseNumber } from "./entries.ts";
import { useStore } from "./hooks.ts";
import { DialSlider } from "./light-dial.tsx";
import { type LightPart, putLight } from "./light-part.ts";
import { dialFault, fullPower_Ws, tidy } from "./light-words.ts";
import { NumberField } from "./number-field.tsx";

/** How strong it is, as its head is marked; on a slider where it has a dial. */
export function PowerFields(part: LightPart) {
  const { output } = part.light;
  return (
    <fieldset class="group power-group">
      <legend class="visually-hidden">power of {part.light.name}</legend>
      {"stopsDown" in output ? (
        <DialPower {...part} output={output} />
      ) : (
        <FreePower {...part} output={output} />
      )}
    </fieldset>
  );
}

type DialOutput = Extract<Output, { stopsDown: number }>;

function DialPower({ bench, index, light, output }: LightPart & { output: DialOutput }) {
  const { dial, name } = light;
  const { stopsDown } = output;
  const full_Ws = fullPower_Ws(output);
  const text = writePower(stopsDown, dial, full_Ws);
  const put = (to: number, mergeKey?: string) => {
    const down = Number(to.toFixed(6));
    if (outsideDial(down, dial) > 0) return dialFault(down, dial, full_Ws);
    const clamped = Math.max(0, down);
    const label = `${name} power ${writePower(clamped, dial, full_Ws)}`;
    return putLight(bench, index, label, { output: { ...output, stopsDown: clamped } }, mergeKey);
  };
  const fault = dialFault(stopsDown, dial, full_Ws);
  const energy = full_Ws === null ? null : wattSecondsText(full_Ws * 2 ** -stopsDown);
  return (
    <>
      <NumberField
        label="power"
        of={name}
        text={text}
        parse={(typed) => parsePower(typed, (bare) => readPower(bare, dial, full_Ws))}
        commit={(down) => put(down)}
        step={(way, large) => put(Math.max(0, stopsDown - way * (large ? 1 : dial.step)))}
      />
      <DialSlider
        name={name}
        stopsDown={stopsDown}
        dial={dial}
        full_Ws={full_Ws}
        said={energy === null || energy === text ? text : `${text}, ${energy}`}
        put={(down) => put(down, `power lights[${index}]`)}
        letGo={() => bench.session.seal()}
      />
      {energy !== null && energy !== text && (
        <p class="quiet small">
          {energy} of {wattSecondsText(full_Ws as number)}
        </p>
      )}
      {fault !== null && (
        <p class="why alert" role="alert">
          {fault}
        </p>
      )}
    </>
  );
}

function parsePower(text: string, read: (text: string) => number | null): Parsed {
  const down = read(text);
  if (down !== null) return { ok: true, value: down };
  return {
    ok: false,
    why: `“${text.trim()}” is no power: give stops below full such as −2.2, a fraction such as 1/4 + 0.3, or 87 Ws.`,
  };
}

const TENTH = 2 ** 0.1;

/** Given by what leaves it or by what a meter reads on its axis: there is no full power, and no dial. */
function FreePower({ bench, index, light, output }: LightPart & { output: Exclude<Output, DialOutput> }) {
  const { units } = useStore(bench.view);
  const { name } = light;
  const put = (to: Output) => putLight(bench, index, `${name} power`, { output: to });
  const step = (way: 1 | -1, large: boolean) => put(scaledOutput(output, large ? 2 ** way : TENTH ** way));
  if ("lumenSeconds" in output) {
    return (
      <NumberField
        label="power"
        of={name}
        text={`${tidy(output.lumenSeconds)} lm·s`}
        parse={(typed) => parseNumber(typed, /\s*lm.?s$/i, "1600")}
        commit={(lumenSeconds) => put({ lumenSeconds })}
        step={step}
      />
    );
  }
  const { fNumber, distance } = output.meter;
  return (
    <>
      <NumberField
        label="power"
        of={name}
        text={fNumberText(fNumber)}
        parse={parseFNumber}
        commit={(to) => put({ meter: { ...output.meter, fNumber: to } })}
        step={step}
      />
      <p class="quiet small">as metered on its axis, {formatLength(distance, units)} away</p>
    </>
  );
}
