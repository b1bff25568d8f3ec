import { incidentFNumber, METER_CONSTANT } from "../photometry/index.ts";
import type { Light, Plan } from "../plan/index.ts";
import type { PlanReading } from "../reading/index.ts";
import { formatFStops } from "../units/index.ts";
import { type Bench, putField } from "./bench.ts";
import { fNumberText, parseFNumber } from "./entries.ts";
import { AimFields, DegreesField, LengthField, PlaceFields, PlainField } from "./fields.tsx";
import { NumberField } from "./number-field.tsx";
import type { PlanObject } from "./objects.ts";

interface LightNumbersProps {
  readonly bench: Bench;
  readonly object: PlanObject;
  readonly index: number;
  readonly light: Light;
  readonly plan: Plan;
  readonly reading: PlanReading | null;
}

export function LightNumbers({ bench, object, index, light, plan, reading }: LightNumbersProps) {
  const path = ["lights", index] as const;
  const common = { bench, of: light.name };
  return (
    <>
      <div class="group">
        <button
          type="button"
          aria-pressed={light.on}
          onClick={() =>
            putField(bench, `${light.name} ${light.on ? "off" : "on"}`, [...path, "on"], !light.on)
          }
        >
          {light.on ? "on" : "off"}
          <span class="visually-hidden">, {light.name}</span>
        </button>
      </div>
      <PowerFields {...common} index={index} light={light} />
      {reading !== null && light.on && <Alone light={light} plan={plan} reading={reading} />}
      <PlaceFields bench={bench} object={object} />
      <AimFields bench={bench} object={object} />
      <FrontFields {...common} index={index} light={light} />
    </>
  );
}

/** What this light does by itself at the first meter that is held there: direct and bounced together. */
function Alone({ light, plan, reading }: { light: Light; plan: Plan; reading: PlanReading }) {
  const index = plan.meters.findIndex((meter) => meter.receptor !== "spot");
  const meter = plan.meters[index];
  const share = reading.meters[index]?.byLight[light.name];
  if (meter === undefined || share === undefined || meter.receptor === "spot") return null;
  const fNumber = incidentFNumber(
    share.direct + share.bounced,
    plan.camera.iso,
    METER_CONSTANT[meter.receptor],
  );
  return (
    <p>
      <span class="quiet line">
        alone, at the {meter.name}, {meter.receptor}
      </span>
      <strong>{formatFStops(fNumber)}</strong>
    </p>
  );
}

interface PartProps {
  readonly bench: Bench;
  readonly of: string;
  readonly index: number;
  readonly light: Light;
}

function PowerFields({ bench, of, index, light }: PartProps) {
  const path = ["lights", index, "output"] as const;
  const { output } = light;
  const common = { bench, of };
  const down = "stopsDown" in output && (
    <PlainField
      {...common}
      label="turned down"
      path={[...path, "stopsDown"]}
      value={output.stopsDown}
      unit={Math.abs(output.stopsDown) === 1 ? "stop" : "stops"}
      digits={2}
      stepBy={0.1}
    />
  );
  return (
    <fieldset class="group">
      <legend class="visually-hidden">power of {of}</legend>
      {"wattSeconds" in output && (
        <PlainField
          {...common}
          label="full power"
          path={[...path, "wattSeconds"]}
          value={output.wattSeconds}
          unit="Ws"
          digits={1}
          stepBy={10}
        />
      )}
      {"guideNumber" in output && (
        <LengthField
          {...common}
          label="guide number"
          path={[...path, "guideNumber"]}
          value={output.guideNumber}
        />
      )}
      {"lumenSeconds" in output && (
        <PlainField
          {...common}
          label="power"
          path={[...path, "lumenSeconds"]}
          value={output.lumenSeconds}
          unit="lm·s"
          digits={1}
          stepBy={10}
        />
      )}
      {"meter" in output && (
        <>
          <NumberField
            label="power: reads"
            of={of}
            text={fNumberText(output.meter.fNumber)}
            parse={parseFNumber}
            commit={(value) => putField(bench, `${of} power`, [...path, "meter", "fNumber"], value)}
            step={(way, large) =>
              putField(
                bench,
                `${of} power`,
                [...path, "meter", "fNumber"],
                output.meter.fNumber * 2 ** ((way * (large ? 1 : 0.1)) / 2),
              )
            }
          />
          <LengthField
            {...common}
            label="at"
            path={[...path, "meter", "distance"]}
            value={output.meter.distance}
          />
        </>
      )}
      {down}
    </fieldset>
  );
}

function FrontFields({ bench, of, index, light }: PartProps) {
  const path = ["lights", index] as const;
  const common = { bench, of };
  const { face } = light;
  return (
    <fieldset class="group">
      <legend class="quiet">front: {face.shape === "polygon" ? `${face.sides} sides` : face.shape}</legend>
      {face.shape !== "point" && (
        <LengthField {...common} label="width" path={[...path, "face", "width"]} value={face.width} />
      )}
      {face.shape === "rectangle" && (
        <LengthField {...common} label="tall" path={[...path, "face", "height"]} value={face.height} />
      )}
      {face.shape !== "point" && (
        <PlainField
          {...common}
          label="rim down"
          path={[...path, "beam", "edgeDrop"]}
          value={light.beam.edgeDrop}
          unit={light.beam.edgeDrop === 1 ? "stop" : "stops"}
          digits={2}
          stepBy={0.1}
        />
      )}
      {light.beam.photometry === undefined ? (
        <PlainField
          {...common}
          label="narrowing"
          path={[...path, "beam", "exponent"]}
          value={light.beam.exponent}
          unit=""
          digits={1}
          stepBy={1}
        />
      ) : (
        <p class="quiet">spreads as {light.beam.photometry} says</p>
      )}
      <DegreesField {...common} label="roll" path={[...path, "roll"]} value={light.roll} />
      <PlainField
        {...common}
        label="colour"
        path={[...path, "kelvin"]}
        value={light.kelvin}
        unit="K"
        digits={0}
        stepBy={50}
      />
    </fieldset>
  );
}
