/** What panels, stands, paper rolls, lenses and bodies have that others have not. */
import { EntryField } from "./find-field.tsx";
import { BriefLength, BriefNumber } from "./find-part.tsx";
import { parsePixels, parseTime, pixelsText, timeText } from "./gear-entries.ts";
import { Tick } from "./gear-fields.tsx";
import type { PieceProps } from "./gear-pieces.tsx";
import { ArmFields, FootFields } from "./gear-support.tsx";

export function PanelFields({ put, units, piece, path }: PieceProps<"panels">) {
  const { height, name, reflectance, transmittance, width } = piece;
  const common = { put, of: name };
  return (
    <>
      <BriefLength {...common} units={units} label="width" path={[...path, "width"]} value={width} />
      <BriefLength {...common} units={units} label="tall" path={[...path, "height"]} value={height} />
      <Share {...common} label="reflects" path={[...path, "reflectance"]} value={reflectance} />
      <Share {...common} label="lets through" path={[...path, "transmittance"]} value={transmittance} />
    </>
  );
}

/** A share as a number under 1; a colour is three of them, and stays as it is. */
function Share(props: {
  put: PieceProps<"panels">["put"];
  of: string;
  label: string;
  path: PieceProps<"panels">["path"];
  value: PieceProps<"panels">["piece"]["reflectance"];
}) {
  const { value, ...common } = props;
  if (typeof value !== "number")
    return (
      <p class="quiet">
        {props.label} red {value[0]}, green {value[1]}, blue {value[2]}
      </p>
    );
  return <BriefNumber {...common} value={value} unit="" digits={2} stepBy={0.05} />;
}

export function ShelfStandFields({ put, units, piece, path }: PieceProps<"stands">) {
  const { arm, footRadius, highest, isWheeled, legs, lowest, name } = piece;
  const common = { put, of: name, units };
  return (
    <>
      <BriefLength {...common} label="lowest" path={[...path, "lowest"]} value={lowest} />
      <BriefLength {...common} label="highest" path={[...path, "highest"]} value={highest} />
      <FootFields {...common} {...{ path, legs, footRadius }} />
      <Tick
        text="on wheels"
        of={name}
        on={isWheeled}
        put={(on) => put(`${name} ${on ? "on" : "off"} wheels`, [...path, "isWheeled"], on)}
      />
      <ArmFields {...common} arm={arm} path={[...path, "arm"]} />
    </>
  );
}

export function PaperFields({ put, units, piece, path }: PieceProps<"papers">) {
  const { name, reflectance, width } = piece;
  const common = { put, of: name };
  return (
    <>
      <BriefLength {...common} units={units} label="width" path={[...path, "width"]} value={width} />
      <Share {...common} label="reflects" path={[...path, "reflectance"]} value={reflectance} />
    </>
  );
}

export function LensFields({ put, piece, path }: PieceProps<"lenses">) {
  const { longest, name, shortest, smallest, widest } = piece;
  const number = (
    label: string,
    field: "longest" | "shortest" | "smallest" | "widest",
    value: number,
    unit: string,
  ) => (
    <BriefNumber
      {...{ put, label, value, unit }}
      of={name}
      path={[...path, field]}
      digits={1}
      stepBy={unit === "mm" ? 1 : 0.1}
    />
  );
  return (
    <>
      {number("shortest", "shortest", shortest, "mm")}
      {number("longest", "longest", longest, "mm")}
      {number("widest f-number", "widest", widest, "")}
      {number("smallest f-number", "smallest", smallest, "")}
    </>
  );
}

export function BodyFields({ put, piece, path }: PieceProps<"bodies">) {
  const { baseIso, name, pixels, sensor, sync } = piece;
  const millimetres = (label: string, field: "width" | "height") => (
    <BriefNumber
      {...{ put, label }}
      of={name}
      path={[...path, "sensor", field]}
      value={sensor[field]}
      unit="mm"
      digits={1}
      stepBy={0.1}
    />
  );
  return (
    <>
      {millimetres("sensor width", "width")}
      {millimetres("sensor height", "height")}
      <EntryField
        label="pixels"
        of={name}
        text={pixelsText(pixels)}
        parse={parsePixels}
        commit={(to) => put(`${name} pixels`, [...path, "pixels"], to)}
      />
      <EntryField
        label="flash to"
        of={name}
        text={timeText(sync)}
        parse={parseTime}
        commit={(to) => put(`${name} flash to ${timeText(to)}`, [...path, "sync"], to)}
        note="the shortest shutter with flash over the whole frame"
      />
      <BriefNumber
        {...{ put }}
        label="base ISO"
        of={name}
        path={[...path, "baseIso"]}
        value={baseIso}
        unit=""
        digits={0}
        stepBy={10}
      />
    </>
  );
}
