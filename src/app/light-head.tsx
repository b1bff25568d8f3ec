import { type Dial, formOf, type Output, type OutputForm, outputAs } from "../plan/index.ts";
import { luminousEnergyOf } from "../staging/index.ts";
import { ChoiceField, LengthField, PlainField } from "./fields.tsx";
import { Fold } from "./fold.tsx";
import { useStore } from "./hooks.ts";
import { type LightPart, putLight } from "./light-part.ts";
import { FORM_WORDS, headWords, MARK_WORDS } from "./light-words.ts";

/** The head behind the power: how strong it is at full, how its dial is marked, and in which way its output is given. */
export function HeadFields({ bench, index, light }: LightPart) {
  const { units } = useStore(bench.view);
  const { dial, name, output } = light;
  const path = ["lights", index] as const;
  const common = { bench, of: name };
  return (
    <Fold word="head" of={name} sums={headWords(output, dial, units)}>
      <ChoiceField
        label="given by"
        of={name}
        value={formOf(output)}
        choices={FORMS.map((form) => [form, FORM_WORDS[form]] as const)}
        choose={(form) => giveBy(bench, index, light, form as OutputForm)}
      />
      {"wattSeconds" in output && (
        <PlainField
          {...common}
          label="full power"
          path={[...path, "output", "wattSeconds"]}
          value={output.wattSeconds}
          unit="Ws"
          digits={1}
          stepBy={10}
        />
      )}
      {"guideNumber" in output && (
        <LengthField
          {...common}
          label="number"
          path={[...path, "output", "guideNumber"]}
          value={output.guideNumber}
        />
      )}
      {"meter" in output && <MeteredAt {...{ bench, index, light }} meter={output.meter} />}
      {"stopsDown" in output && <DialFields bench={bench} index={index} light={light} />}
      {"wattSeconds" in output && <Yield bench={bench} index={index} light={light} output={output} />}
    </Fold>
  );
}

const FORMS: readonly OutputForm[] = ["wattSeconds", "guideNumber", "meter", "lumenSeconds"];
const FARTHEST_AIM_M = 10;
const NEAREST_AIM_M = 0.5;

/** The same light, given another way. A meter is thought of where the light aims. */
function giveBy(bench: LightPart["bench"], index: number, light: LightPart["light"], form: OutputForm): void {
  const { plan } = bench.session.get();
  const { direction, position } = light;
  const away = "at" in direction ? Math.hypot(...direction.at.map((v, k) => v - (position[k] as number))) : 2;
  const distance = Number(Math.min(FARTHEST_AIM_M, Math.max(NEAREST_AIM_M, away)).toFixed(2));
  const energyOf = (output: Output) => luminousEnergyOf({ ...light, output }, plan);
  const output = outputAs(form, light.output, energyOf, distance);
  const refused =
    output === null
      ? "nothing leaves it: there is no reading to give it by"
      : putLight(bench, index, `${light.name} given by ${FORM_WORDS[form]}`, { output });
  if (refused !== null) bench.say.set(`${light.name} stays as it is: ${refused}`);
}

function DialFields({ bench, index, light }: LightPart) {
  const { dial, name } = light;
  const path = ["lights", index, "dial"] as const;
  const hasWs = "wattSeconds" in light.output;
  const marks = (Object.keys(MARK_WORDS) as Dial["marked"][]).filter((m) => hasWs || m !== "wattSeconds");
  return (
    <>
      <ChoiceField
        label="marked"
        of={name}
        value={marks.includes(dial.marked) ? dial.marked : "stops"}
        choices={marks.map((marked) => [marked, MARK_WORDS[marked]] as const)}
        choose={(marked) =>
          putLight(bench, index, `${name} dial ${MARK_WORDS[marked as Dial["marked"]]}`, {
            dial: { ...dial, marked: marked as Dial["marked"] },
          })
        }
      />
      <PlainField
        bench={bench}
        of={name}
        label="dial reaches"
        path={[...path, "range"]}
        value={dial.range}
        unit="stops"
        digits={1}
        stepBy={1}
      />
      <PlainField
        bench={bench}
        of={name}
        label="dial steps"
        path={[...path, "step"]}
        value={dial.step}
        unit="stop"
        digits={2}
        stepBy={0.1}
      />
    </>
  );
}

/** What becomes of the energy: a guess until it is calibrated. */
function Yield({
  bench,
  index,
  light,
  output,
}: LightPart & { output: Extract<Output, { wattSeconds: number }> }) {
  const common = { bench, of: light.name };
  const path = ["lights", index, "output"] as const;
  return (
    <>
      <PlainField
        {...common}
        label="tube gives"
        path={[...path, "lumensPerWatt"]}
        value={output.lumensPerWatt}
        unit="lm/W"
        digits={1}
        stepBy={1}
      />
      <PlainField
        {...common}
        label="leaves front"
        path={[...path, "efficiency"]}
        value={output.efficiency}
        unit=""
        digits={3}
        stepBy={0.01}
      />
    </>
  );
}

function MeteredAt({
  bench,
  index,
  light,
  meter,
}: LightPart & { meter: Extract<Output, { meter: object }>["meter"] }) {
  const path = ["lights", index, "output", "meter"] as const;
  return (
    <>
      <LengthField
        bench={bench}
        of={light.name}
        label="at"
        path={[...path, "distance"]}
        value={meter.distance}
      />
      <ChoiceField
        label="receptor"
        of={light.name}
        value={meter.receptor}
        choices={[
          ["flat", "flat"],
          ["dome", "dome"],
        ]}
        choose={(receptor) =>
          putLight(bench, index, `${light.name} read by ${receptor}`, {
            output: { meter: { ...meter, receptor: receptor as "flat" | "dome" } },
          })
        }
      />
    </>
  );
}
