import type { Camera, Meter, Panel, Person } from "../plan/index.ts";
import { type Bench, putField } from "./bench.ts";
import { BodyReachLine } from "./body-reach-line.ts";
import { AimFields, ChoiceField, DegreesField, LengthField, PlaceFields, PlainField } from "./fields.tsx";
import { later } from "./later.tsx";
import type { PlanObject } from "./objects.ts";
import { PersonLooks } from "./person-looks.tsx";
import { ReflectanceField } from "./set-numbers.tsx";

const NextSitterForm = later(async () => (await import("./next-sitter-form.tsx")).NextSitterForm);

interface Part<T> {
  readonly bench: Bench;
  readonly object: PlanObject;
  readonly thing: T;
}

export function PersonNumbers({ bench, object, thing: person }: Part<Person>) {
  const common = { bench, of: person.name };
  const head = [...object.path, "head"] as const;
  return (
    <>
      <PlaceFields bench={bench} object={object} />
      <AimFields bench={bench} object={object} />
      <fieldset class="group">
        <legend class="quiet">head</legend>
        <ChoiceField
          label="follows"
          of={person.name}
          value={person.head.follows}
          choices={[
            ["nothing", "nothing"],
            ["camera", "the lens"],
          ]}
          choose={(value) => putField(bench, `${person.name} follows ${value}`, [...head, "follows"], value)}
        />
        <DegreesField
          {...common}
          label="turn to own left"
          path={[...head, "turn"]}
          value={person.head.turn}
        />
        <DegreesField {...common} label="chin up" path={[...head, "tip"]} value={person.head.tip} />
        <DegreesField
          {...common}
          label="tilt to own left"
          path={[...head, "tilt"]}
          value={person.head.tilt}
        />
      </fieldset>
      <fieldset class="group">
        <legend class="quiet">{person.pose}</legend>
        <ChoiceField
          label="pose"
          of={person.name}
          value={person.pose}
          choices={[
            ["standing", "standing"],
            ["seated", "seated"],
          ]}
          choose={(value) => putField(bench, `${person.name} ${value}`, [...object.path, "pose"], value)}
        />
        <LengthField {...common} label="stature" path={[...object.path, "stature"]} value={person.stature} />
        {person.pose === "seated" && (
          <LengthField
            {...common}
            label="seat"
            path={[...object.path, "seatHeight"]}
            value={person.seatHeight}
          />
        )}
      </fieldset>
      <PersonLooks bench={bench} object={object} person={person} />
      <NextSitterForm bench={bench} index={Number(object.path[1])} person={person} />
    </>
  );
}

export function CameraNumbers({ bench, object, thing: camera }: Part<Camera>) {
  const common = { bench, of: "camera" };
  return (
    <>
      <PlaceFields bench={bench} object={object} />
      <AimFields bench={bench} object={object} />
      <BodyReachLine bench={bench} owner={object.owner} />
      <fieldset class="group">
        <legend class="visually-hidden">lens and body</legend>
        <PlainField
          {...common}
          label="lens"
          path={["camera", "focalLength"]}
          value={camera.focalLength}
          unit="mm"
          digits={1}
          stepBy={1}
        />
        <DegreesField {...common} label="roll" path={["camera", "roll"]} value={camera.roll} />
        <ChoiceField
          label="held"
          of="camera"
          value={camera.orientation}
          choices={[
            ["portrait", "upright"],
            ["landscape", "level"],
          ]}
          choose={(value) => putField(bench, "camera held", ["camera", "orientation"], value)}
        />
        <PlainField
          {...common}
          label="white balance"
          path={["camera", "whiteBalance"]}
          value={camera.whiteBalance}
          unit="K"
          digits={0}
          stepBy={50}
        />
        <PlainField
          {...common}
          label="middle to clip"
          path={["camera", "headroom"]}
          value={camera.headroom}
          unit="stops"
          digits={2}
          stepBy={0.1}
        />
      </fieldset>
    </>
  );
}

export function PanelNumbers({ bench, object, thing: panel }: Part<Panel>) {
  const common = { bench, of: panel.name };
  return (
    <>
      <PlaceFields bench={bench} object={object} />
      <AimFields bench={bench} object={object} />
      <BodyReachLine bench={bench} owner={object.owner} />
      <fieldset class="group">
        <legend class="visually-hidden">the panel itself</legend>
        <LengthField {...common} label="width" path={[...object.path, "width"]} value={panel.width} />
        <LengthField {...common} label="tall" path={[...object.path, "height"]} value={panel.height} />
        <DegreesField {...common} label="roll" path={[...object.path, "roll"]} value={panel.roll} />
        <ReflectanceField {...common} path={[...object.path, "reflectance"]} value={panel.reflectance} />
        <PlainField
          {...common}
          label="lets through"
          path={[...object.path, "transmittance"]}
          value={panel.transmittance}
          unit=""
          digits={3}
          stepBy={0.01}
        />
      </fieldset>
    </>
  );
}

export function MeterNumbers({ bench, object, thing: meter }: Part<Meter>) {
  return (
    <>
      <ChoiceField
        label="receptor"
        of={meter.name}
        value={meter.receptor}
        choices={[
          ["flat", "flat"],
          ["dome", "dome"],
          ["spot", "spot, 1°"],
        ]}
        choose={(value) => putField(bench, `${meter.name} ${value}`, [...object.path, "receptor"], value)}
      />
      <PlaceFields bench={bench} object={object} />
      <AimFields bench={bench} object={object} />
    </>
  );
}
