import type { Plan } from "../plan/index.ts";
import { edgeWords, goodToWords, type MeterReading, type PlanReading } from "../reading/index.ts";
import type { LengthUnits } from "../units/index.ts";
import { depthWords } from "./frame-depth.ts";
import { ReadingLine } from "./reading-line.tsx";
import { groupWords, ratioWords } from "./wording.ts";

interface ReadingNumbersProps {
  readonly plan: Plan;
  readonly reading: PlanReading;
  readonly person: number;
  readonly units: LengthUnits;
}

/** What is read beside the face: the meters, contrast, how deep it is sharp. */
export function ReadingNumbers({ plan, reading, person, units }: ReadingNumbersProps) {
  const face = reading.people[person]?.face;
  const ratio = face === undefined ? null : ratioWords(face);
  const depth = depthWords(plan, person, units);
  const sure = sureWords(reading.meters);
  return (
    <dl class="meter-column">
      {reading.meters.map((meter, index) => (
        <ReadingLine
          key={meter.name}
          term={`meter ${meter.name}`}
          strong={meter.fStops}
          rest={`at the ${meter.name}`}
          detail={`${sure[index]}${plan.meters[index]?.receptor ?? ""}${lightFrom(meter)}`}
        />
      ))}
      {ratio !== null && face !== undefined && (
        <ReadingLine term="contrast" {...ratio} detail={`${ratio.detail}; ${edgeWords(face)}`} />
      )}
      {reading.group !== null && <ReadingLine term="group" {...groupWords(reading.group)} />}
      {depth !== null && <ReadingLine term="depth of field" {...depth} />}
    </dl>
  );
}

/** Before each meter's own words; where all are as sure, the first says it for all of them. */
function sureWords(meters: readonly MeterReading[]): string[] {
  const words = meters.map(({ uncertaintyStops }) => goodToWords(uncertaintyStops));
  const [first] = words;
  const isCommon = words.length > 1 && words.every((one) => one === first);
  return words.map((one, i) => {
    if (one === null || (isCommon && i > 0)) return "";
    return isCommon ? `${one}, as are the others; ` : `${one}; `;
  });
}

function lightFrom({ vector: { bearing, tilt } }: MeterReading): string {
  if (bearing === null || tilt === null) return "";
  const up = Math.round(tilt);
  return `, light from bearing ${Math.round(bearing) % 360}°, ${Math.abs(up)}° ${up < 0 ? "down" : "up"}`;
}
