import type { Plan } from "../plan/index.ts";
import {
  betweenWords,
  catchlightWords,
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
import { type LengthUnits, lengthsIn } from "../units/index.ts";
import { EyesDrawing } from "./eyes-drawing.tsx";
import { HeadDrawing } from "./head-drawing.tsx";
import { ReadingNumbers } from "./reading-numbers.tsx";

interface ReadingPanelProps {
  /** whose light is shown */
  readonly plan: Plan;
  readonly reading: PlanReading | null;
  readonly refining: boolean;
  readonly person: number;
  readonly units: LengthUnits;
}

/** What is read off the light: the face by words and small drawings, and beside it every number. */
export function ReadingPanel({ plan, reading, refining, person, units }: ReadingPanelProps) {
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
              <FaceColumn who={who} isOneOfMany={reading.people.length > 1} units={units} />
            )}
            <ReadingNumbers plan={plan} reading={reading} person={person} units={units} />
          </div>
          <Warnings warnings={reading.warnings} units={units} />
        </>
      )}
    </section>
  );
}

interface FaceColumnProps {
  readonly who: PersonReading;
  readonly isOneOfMany: boolean;
  readonly units: LengthUnits;
}

function FaceColumn({ who, isOneOfMany, units }: FaceColumnProps) {
  const { face } = who;
  const margin = lengthsIn(marginWords(face) ?? "no turn or tip within reach changes it", units);
  const from = lightFromWords(face) ?? "from nowhere in particular";
  const between = betweenWords(face);
  const glasses = glassesWords(face);
  const catchlights = catchlightWords(face.catchlights);
  return (
    <div class="face-column">
      <div class="state">
        {isOneOfMany && <p class="quiet">{who.name}; take hold of another to read that face</p>}
        <h3 class="big">{patternName(face.pattern)}</h3>{" "}
        <p class="beside-big">
          {between !== null && `${between}; `}
          {litSideWords(face)}
        </p>
        <p class="quiet">{margin}</p>
        <EveryMargin lines={marginLines(face).map((line) => lengthsIn(line, units))} />
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

function Warnings({ warnings, units }: { warnings: readonly Warning[]; units: LengthUnits }) {
  if (warnings.length === 0) return null;
  return (
    <ul class="warnings" aria-label="Warnings">
      {warnings.map((warning) => (
        <li key={`${warning.path} ${warning.state}`}>
          <span class="alert">! {lengthsIn(warning.state, units)}</span>
          {warning.margin !== "" && <span>; {lengthsIn(warning.margin, units)}</span>}
          {warning.remedy !== "" && <span class="quiet">; {lengthsIn(warning.remedy, units)}</span>}
        </li>
      ))}
    </ul>
  );
}
