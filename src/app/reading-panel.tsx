import {
  betweenWords,
  catchlightWords,
  edgeWords,
  glassesWords,
  lightFromWords,
  litSideWords,
  marginLines,
  marginWords,
  type PersonReading,
  type PlanReading,
  patternName,
  type Warning,
} from "../reading/index.ts";
import { EyesDrawing } from "./eyes-drawing.tsx";
import { HeadDrawing } from "./head-drawing.tsx";
import { ReadingLine } from "./reading-line.tsx";
import { groupWords, ratioWords } from "./wording.ts";

interface ReadingPanelProps {
  readonly reading: PlanReading | null;
  readonly refining: boolean;
  readonly person: number;
  readonly receptors: readonly string[];
}

export function ReadingPanel({ reading, refining, person, receptors }: ReadingPanelProps) {
  const who = reading?.people[person];
  return (
    <section class="reading" aria-labelledby="reading-title" aria-busy={refining}>
      <header class="section-head">
        <h2 id="reading-title" class="visually-hidden">
          Reading
        </h2>
        <span class="quiet refining" data-on={refining}>
          refining…
        </span>
      </header>
      {reading === null ? (
        <p class="quiet">The first reading is being worked out.</p>
      ) : (
        <>
          <div class="reading-grid">
            {who === undefined ? (
              <p class="quiet">
                Nobody stands in this plan yet: there is no face to read. Add a person, and a light.
              </p>
            ) : (
              <FaceColumn who={who} isOneOfMany={reading.people.length > 1} />
            )}
            <MeterColumn reading={reading} who={who} receptors={receptors} />
          </div>
          <Warnings warnings={reading.warnings} />
        </>
      )}
    </section>
  );
}

function FaceColumn({ who, isOneOfMany }: { who: PersonReading; isOneOfMany: boolean }) {
  const { face } = who;
  const margin = marginWords(face);
  const from = lightFromWords(face) ?? "from nowhere in particular";
  const between = betweenWords(face);
  const glasses = glassesWords(face);
  const catchlights = catchlightWords(face.catchlights);
  return (
    <div class="face-column">
      <div class="state">
        {isOneOfMany && <p class="quiet">{who.name}; take hold of another to read that face</p>}
        <p>
          <strong class="big" data-testid="pattern">
            {patternName(face.pattern)}
          </strong>{" "}
          {between !== null && `${between}; `}
          {litSideWords(face)}
        </p>
        <p class="quiet">{margin ?? "no turn or tip within reach changes it"}</p>
        <EveryMargin lines={marginLines(face)} />
      </div>
      <div class="pair">
        <HeadDrawing light={face.light} text={from} />
        <p>
          {from}
          <span class="quiet line">{face.spread ?? "no light"}</span>
        </p>
      </div>
      <div class="pair">
        <EyesDrawing catchlights={face.catchlights} text={catchlights} />
        <p class="quiet">{catchlights}</p>
      </div>
      {glasses !== null && <p class="quiet">{glasses}</p>}
    </div>
  );
}

/** What else would change the pattern, behind a disclosure: the nearest is said above. */
function EveryMargin({ lines }: { lines: readonly string[] }) {
  if (lines.length === 0) return null;
  return (
    <details class="margins">
      <summary class="quiet">every way to another pattern</summary>
      <ul>
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </details>
  );
}

function MeterColumn({
  reading,
  who,
  receptors,
}: {
  reading: PlanReading;
  who: PersonReading | undefined;
  receptors: readonly string[];
}) {
  const ratio = who === undefined ? null : ratioWords(who.face);
  return (
    <dl class="meter-column">
      {reading.meters.map((meter, index) => (
        <ReadingLine
          key={meter.name}
          term={`meter ${meter.name}`}
          strong={meter.fStops}
          rest={`at the ${meter.name}`}
          detail={`${receptors[index] ?? ""} ${meterDirection(meter.vector.bearing, meter.vector.tilt)}`.trim()}
        />
      ))}
      {ratio !== null && who !== undefined && (
        <ReadingLine term="contrast" {...ratio} detail={`${ratio.detail}; ${edgeWords(who.face)}`} />
      )}
      {reading.group !== null && <ReadingLine term="group" {...groupWords(reading.group)} />}
    </dl>
  );
}

function meterDirection(bearing: number | null, tilt: number | null): string {
  if (bearing === null || tilt === null) return "";
  const up = Math.round(tilt);
  return `· light from ${Math.round(bearing)}°, ${Math.abs(up)}° ${up < 0 ? "down" : "up"}`;
}

function Warnings({ warnings }: { warnings: readonly Warning[] }) {
  if (warnings.length === 0) return null;
  return (
    <ul class="warnings" aria-label="Warnings">
      {warnings.map((warning) => (
        <li key={`${warning.path} ${warning.state}`}>
          <span class="alert">! {warning.state}</span>
          {warning.margin !== "" && <span>; {warning.margin}</span>}
          {warning.remedy !== "" && <span class="quiet">; {warning.remedy}</span>}
        </li>
      ))}
    </ul>
  );
}
