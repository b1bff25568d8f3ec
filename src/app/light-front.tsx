import { beamAngle, exponentOfAngle, type FrontShape, faceAs, outputOnGrid } from "../plan/index.ts";
import { degreesText, parseDegrees } from "./entries.ts";
import { ChoiceField, DegreesField, LengthField, PlainField } from "./fields.tsx";
import { Fold } from "./fold.tsx";
import { useStore } from "./hooks.ts";
import { type LightPart, putLight } from "./light-part.ts";
import { beamWords, frontWords } from "./light-words.ts";
import { NumberField } from "./number-field.tsx";

const SHAPES: readonly (readonly [FrontShape, string])[] = [
  ["disc", "round"],
  ["rectangle", "rectangle"],
  ["polygon", "polygon"],
  ["point", "bare point"],
];

/** The surface that emits: shape, size, how it is turned. */
export function FrontFields({ bench, index, light }: LightPart) {
  const { units } = useStore(bench.view);
  const path = ["lights", index, "face"] as const;
  const { face, beam, name } = light;
  const common = { bench, of: name };
  const shape = (to: FrontShape) => {
    const next = { face: faceAs(face, to), beam };
    // a front with a size sends nothing more evenly than a perfect diffuser
    if (to !== "point" && beam.exponent < 1) next.beam = { ...beam, exponent: 1 };
    putLight(bench, index, `${name} front ${to}`, next);
  };
  return (
    <Fold word="front" of={name} sums={frontWords(face, units)}>
      <ChoiceField
        label="shape"
        of={name}
        value={face.shape}
        choices={SHAPES}
        choose={(to) => shape(to as FrontShape)}
      />
      {face.shape === "polygon" && (
        <PlainField
          {...common}
          label="sides"
          path={[...path, "sides"]}
          value={face.sides}
          unit=""
          digits={0}
          stepBy={1}
        />
      )}
      {face.shape !== "point" && (
        <LengthField {...common} label="width" path={[...path, "width"]} value={face.width} />
      )}
      {face.shape === "rectangle" && (
        <LengthField {...common} label="tall" path={[...path, "height"]} value={face.height} />
      )}
      <DegreesField {...common} label="roll" path={["lights", index, "roll"]} value={light.roll} />
    </Fold>
  );
}

/** Typical beams (common practice, no source); the perfect diffuser is 120 by its cosine. */
const BEAMS: readonly (readonly [number, string])[] = [
  [180, "even 180°"],
  [120, "diffuser 120°"],
  [60, "grid 60°"],
  [40, "grid 40°"],
  [20, "grid 20°"],
];
const SAME_DEG = 0.01;
const MOST_EXPONENT = 60;

/** How it spreads: the full angle at half of the axis, and how much darker the rim is. */
export function BeamFields({ bench, index, light }: LightPart) {
  const { beam, face, name } = light;
  const widest = face.shape === "point" ? 180 : 120;
  const narrowest = Math.ceil(10 * beamAngle(MOST_EXPONENT)) / 10;
  const angle = beamAngle(beam.exponent);
  const choices = BEAMS.filter(([deg]) => deg <= widest);
  const chosen = choices.find(([deg]) => Math.abs(deg - angle) < SAME_DEG);
  const put = (deg: number) => {
    if (!(deg >= narrowest && deg <= widest))
      return `${degreesText(deg)} is no beam of ${face.shape === "point" ? "a point" : "a front with a size"}: give ${narrowest}° to ${widest}°.`;
    const exponent = Number(exponentOfAngle(deg).toFixed(6));
    const { output } = outputOnGrid(light, exponent);
    return putLight(bench, index, `${name} beam ${degreesText(deg)}`, {
      beam: { ...beam, exponent },
      output,
    });
  };
  const isWholeTube = "efficiency" in light.output && light.output.efficiency === 1;
  return (
    <Fold word="beam" of={name} sums={beamWords(light)}>
      {beam.photometry === undefined ? (
        <>
          <ChoiceField
            label="with"
            of={name}
            value={chosen === undefined ? OWN : String(chosen[0])}
            choices={[
              ...choices.map(([deg, text]) => [String(deg), text] as const),
              ...(chosen === undefined ? [[OWN, "its own"] as const] : []),
            ]}
            choose={(deg) => deg !== OWN && put(Number(deg))}
          />
          <NumberField
            label="half across"
            of={name}
            text={degreesText(angle)}
            parse={parseDegrees}
            commit={put}
            step={(way, large) =>
              put(Math.min(widest, Math.max(narrowest, Math.round(angle) + way * (large ? 5 : 1))))
            }
          />
          {isWholeTube && <p class="quiet small">all that the tube gives leaves the front</p>}
        </>
      ) : (
        <p class="quiet">spreads as {beam.photometry} says</p>
      )}
      {face.shape !== "point" && (
        <PlainField
          bench={bench}
          of={name}
          label="rim down"
          path={["lights", index, "beam", "edgeDrop"]}
          value={beam.edgeDrop}
          unit={beam.edgeDrop === 1 ? "stop" : "stops"}
          digits={2}
          stepBy={0.1}
        />
      )}
    </Fold>
  );
}

const OWN = "own";
