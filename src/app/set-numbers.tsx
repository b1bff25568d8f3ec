import type { Backdrop, Plan, Reflectance } from "../plan/index.ts";
import { type Bench, putField } from "./bench.ts";
import { AimFields, ChoiceField, LengthField, PlaceFields, PlainField } from "./fields.tsx";
import type { PlanObject } from "./objects.ts";

export function BackdropNumbers({
  bench,
  object,
  thing: backdrop,
}: {
  bench: Bench;
  object: PlanObject;
  thing: Backdrop;
}) {
  const common = { bench, of: backdrop.kind };
  return (
    <>
      <PlaceFields bench={bench} object={object} />
      <AimFields bench={bench} object={object} />
      <fieldset class="group">
        <legend class="visually-hidden">the {backdrop.kind} itself</legend>
        <LengthField {...common} label="width" path={["backdrop", "width"]} value={backdrop.width} />
        <LengthField {...common} label="top" path={["backdrop", "top"]} value={backdrop.top} />
        <LengthField
          {...common}
          label="sweep radius"
          path={["backdrop", "sweepRadius"]}
          value={backdrop.sweepRadius}
        />
        <LengthField
          {...common}
          label="on the floor"
          path={["backdrop", "floorLength"]}
          value={backdrop.floorLength}
        />
        <ReflectanceField {...common} path={["backdrop", "reflectance"]} value={backdrop.reflectance} />
      </fieldset>
    </>
  );
}

/** A grey is one number; a colour is three, and stays as the file has it. */
export function ReflectanceField(props: {
  bench: Bench;
  of: string;
  path: readonly (string | number)[];
  value: Reflectance;
}) {
  const { bench, of, path, value } = props;
  if (typeof value !== "number") {
    return (
      <p class="quiet">
        reflects red {value[0]}, green {value[1]}, blue {value[2]}
      </p>
    );
  }
  return (
    <PlainField
      bench={bench}
      of={of}
      label="reflects"
      path={path}
      value={value}
      unit=""
      digits={3}
      stepBy={0.01}
    />
  );
}

export function RoomNumbers({ bench, plan }: { bench: Bench; plan: Plan }) {
  const common = { bench, of: "room" };
  return (
    <>
      {plan.room === null ? (
        <p class="quiet">open space: no floor, no walls, nothing bounces</p>
      ) : (
        <fieldset class="group">
          <legend class="visually-hidden">size of the room</legend>
          <LengthField {...common} label="width" path={["room", "width"]} value={plan.room.width} />
          <LengthField {...common} label="depth" path={["room", "depth"]} value={plan.room.depth} />
          <LengthField {...common} label="height" path={["room", "height"]} value={plan.room.height} />
          <ChoiceField
            label="bounce"
            of="room"
            value={String(plan.room.bounce)}
            choices={[
              ["true", "counted"],
              ["false", "left out"],
            ]}
            choose={(value) => putField(bench, "room bounce", ["room", "bounce"], value === "true")}
          />
        </fieldset>
      )}
      <PlainField
        {...common}
        label="ambient"
        path={["ambient", "lux"]}
        value={plan.ambient.lux}
        unit="lx"
        digits={1}
        stepBy={10}
      />
    </>
  );
}
