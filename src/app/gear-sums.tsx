import { useMemo } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import { cautionsFor, ESTIMATES_ONLY, type SafetyRow } from "../safety/index.ts";
import { stagePerson } from "../staging/index.ts";
import type { LengthUnits } from "../units/index.ts";

/** Load against load, and what must be weighed or measured before a sum is whole: by word, never by colour. */
export function Sums({ rows, isHeaded = false }: { rows: readonly SafetyRow[]; isHeaded?: boolean }) {
  return (
    <div class="gear-sums">
      {rows.map((row) => (
        <section key={`${row.owner} ${row.heading}`} aria-label={`sums: ${row.heading}`}>
          {isHeaded && <h3>{row.heading}</h3>}
          <p class="quiet small">{row.about}</p>
          {row.sums.length > 0 && (
            <table>
              <thead>
                <tr>
                  <th scope="col">what</th>
                  <th scope="col">load</th>
                  <th scope="col">so</th>
                </tr>
              </thead>
              <tbody>
                {row.sums.map(({ isOver, what, left, right, word }) => (
                  <tr key={what} class={isOver ? "is-over" : undefined}>
                    <th scope="row">{what}</th>
                    <td>
                      {together(left)}{" "}
                      <span class="line">
                        <span class="quiet">against</span> {together(right)}
                      </span>
                    </td>
                    <td>{word}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          )}
          {row.asks.map((ask) => (
            <p key={ask} class="small">
              Still to do: {ask}.
            </p>
          ))}
        </section>
      ))}
    </div>
  );
}

/** No line breaks a moment apart: "21.6" at its end and "N·m" on the next read as two numbers. */
const together = (words: string) =>
  words.replace(/(\d) (?=N·m|N\b|lbf|lb\b|kg|m\b|A\b|W\b)/g, "$1\u00a0").replace(/′ /g, "′\u00a0");

/** What everybody on set is told: who is beneath something first, then what follows from the plan's numbers. */
export function Cautions({ plan, units }: { plan: Plan; units: LengthUnits }) {
  const people = useMemo(() => plan.people.map((person) => ({ staged: stagePerson(person, plan) })), [plan]);
  const cautions = cautionsFor(plan, people, units);
  const these = cautions.filter(({ kind }) => kind !== "usual");
  const usual = cautions.filter(({ kind, text }) => kind === "usual" && text !== ESTIMATES_ONLY);
  return (
    <section class="gear-cautions" aria-labelledby="cautions-title">
      <h2 id="cautions-title">Cautions</h2>
      <p>{ESTIMATES_ONLY}</p>
      <ul>
        {these.map(({ kind, text }) => (
          <li key={text} class={kind === "overhead" ? "alert" : undefined}>
            {text}
          </li>
        ))}
      </ul>
      <h3>every time</h3>
      <ul>
        {usual.map(({ text }) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
    </section>
  );
}
