import { beamAngle, exponentOfAngle, type FieldPath, faceAs, type GearFront } from "../plan/index.ts";
import { degreesText, parseDegrees } from "./entries.ts";
import { ChoiceField } from "./fields.tsx";
import { parseName } from "./find-entries.ts";
import { EntryField } from "./find-field.tsx";
import { BriefLength, BriefNumber, type BriefPart } from "./find-part.tsx";
import { NumberField } from "./number-field.tsx";

const SHAPES = [
  ["disc", "round"],
  ["rectangle", "rectangle"],
  ["polygon", "polygon"],
  ["point", "bare point"],
] as const;

interface FrontProps extends BriefPart {
  readonly front: GearFront;
  readonly path: FieldPath;
  readonly takeAway: (() => void) | null;
}

/** One of the fronts that go on a head on hand. */
export function FrontParts({ front, path, put, units, takeAway }: FrontProps) {
  const { beam, face, name, stopsLost } = front;
  const common = { put, of: name };
  return (
    <fieldset class="group front">
      <legend class="visually-hidden">front {name}</legend>
      <EntryField
        label="front"
        of={name}
        text={name}
        parse={parseName}
        commit={(to) => put(`front ${name} is ${to}`, [...path, "name"], to)}
      />
      <FaceParts {...{ name, face, beam, path, put, units }} />
      <BriefNumber
        {...common}
        label="takes away"
        path={[...path, "stopsLost"]}
        value={stopsLost}
        unit="stops"
        digits={1}
        stepBy={0.1}
      />
      {takeAway !== null && (
        <p>
          <button type="button" class="quiet" onClick={takeAway}>
            take away<span class="visually-hidden"> front {name}</span>
          </button>
        </p>
      )}
    </fieldset>
  );
}

interface FaceProps extends Pick<FrontProps, "path" | "put" | "units"> {
  readonly name: string;
  readonly face: GearFront["face"];
  readonly beam: GearFront["beam"];
}

/** The surface that emits, and how it spreads. */
export function FaceParts({ name, face, beam, path, put, units }: FaceProps) {
  const common = { put, of: name };
  const angle = (degrees: number) =>
    degrees > 0 && degrees <= 180
      ? put(`${name} beam`, [...path, "beam", "exponent"], Number(exponentOfAngle(degrees).toFixed(6)))
      : `${degreesText(degrees)} is no beam: give 20° to 120°.`;
  return (
    <>
      <ChoiceField
        label="shape"
        of={name}
        value={face.shape}
        choices={SHAPES}
        choose={(shape) =>
          put(`${name} ${shape}`, [...path, "face"], faceAs(face, shape as typeof face.shape))
        }
      />
      {face.shape !== "point" && (
        <BriefLength
          {...common}
          units={units}
          label="width"
          path={[...path, "face", "width"]}
          value={face.width}
        />
      )}
      {face.shape === "rectangle" && (
        <BriefLength
          {...common}
          units={units}
          label="tall"
          path={[...path, "face", "height"]}
          value={face.height}
        />
      )}
      <NumberField
        label="beam, half across"
        of={name}
        text={degreesText(beamAngle(beam.exponent))}
        parse={parseDegrees}
        commit={angle}
        step={(way, large) => angle(Math.round(beamAngle(beam.exponent)) + way * (large ? 10 : 1))}
      />
    </>
  );
}
