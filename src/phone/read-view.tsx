import { useState } from "preact/hooks";
import type { LivePlan, LiveReading } from "../workbench/index.ts";
import { ReadingEntry } from "./reading-entry.tsx";

/** What the meters should read, what they did, and the stops between; a tap on one enters it. */
export function ReadView({ plan }: { plan: LivePlan }) {
  const { readings, iso, readOf, revision } = plan;
  const [open, setOpen] = useState<string | null>(null);
  const meters = [...new Set(readings.map(({ meter }) => meter))];
  if (meters.length === 0)
    return (
      <>
        <h2 class="visually-hidden">Read</h2>
        <p class="empty">The plan has no meter. Put one where you will hold yours, in the workbench.</p>
      </>
    );
  return (
    <>
      <h2 class="visually-hidden">Read</h2>
      <p class="meter-set">
        set the meter to <strong>ISO {Math.round(iso)}</strong>
        {readOf === null && <span class="working">what it should read is being worked out</span>}
        {readOf !== null && readOf < revision && (
          <span class="working">the plan has changed, it is being worked out again</span>
        )}
      </p>
      {meters.map((meter) => {
        const of = readings.filter((reading) => reading.meter === meter);
        return (
          <section key={meter} class="meter" aria-label={`meter ${meter}`}>
            <h3>{meter}</h3>
            <p class="quiet">{of[0]?.held}</p>
            <ul>
              {of.map((reading) => {
                const key = `${meter}\n${reading.light}`;
                return (
                  <ReadingRow
                    key={key}
                    reading={reading}
                    isOpen={open === key}
                    toggle={() => setOpen(open === key ? null : key)}
                    done={() => setOpen(null)}
                  />
                );
              })}
            </ul>
          </section>
        );
      })}
    </>
  );
}

interface RowProps {
  readonly reading: LiveReading;
  readonly isOpen: boolean;
  readonly toggle: () => void;
  readonly done: () => void;
}

function ReadingRow({ reading, isOpen, toggle, done }: RowProps) {
  const { light, should, made, difference, isOld } = reading;
  return (
    <li class="reading" data-open={isOpen}>
      <button type="button" class="row" aria-expanded={isOpen} onClick={toggle}>
        <span class="light">{light === "all" ? "all lights" : `${light} alone`}</span>
        <span class="should">
          <span class="quiet">should</span> <strong>{should ?? "not known yet"}</strong>
        </span>
        <span class="made">
          {made === null ? (
            <span class="enter">enter what it reads</span>
          ) : (
            <>
              <span class="quiet">read</span> <strong>{made}</strong>
              {difference !== null && <em>{difference}</em>}
              {isOld && <em class="old">before a light was changed: read again</em>}
            </>
          )}
        </span>
      </button>
      {isOpen && <ReadingEntry reading={reading} done={done} />}
    </li>
  );
}
