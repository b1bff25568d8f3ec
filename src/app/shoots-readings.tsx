import type { Plan } from "../plan/index.ts";
import type { PlanInShoot } from "../shoots/index.ts";
import { formatFStops } from "../units/index.ts";
import type { Bench } from "./bench.ts";
import { rounded } from "./fields.tsx";
import { useStore } from "./hooks.ts";
import { lightWords, whereWords } from "./readings-places.ts";
import { readingsOf } from "./shoots-states.ts";

interface TableProps {
  readonly bench: Bench;
  readonly inShoot: readonly PlanInShoot[];
  readonly plans: ReadonlyMap<string, Plan | null>;
}

/** What was metered under each plan of the shoot. */
export function ReadingsTable({ bench, inShoot, plans }: TableProps) {
  const { units } = useStore(bench.view);
  const rows = readingsOf(inShoot, plans);
  const under = inShoot.filter(({ key }) => rows.some((row) => row.key === key));
  const hasNotes = rows.some(({ reading }) => reading.note !== "");
  return (
    <section aria-labelledby="metered-title">
      <h2 id="metered-title">Meter readings</h2>
      {rows.length === 0 ? (
        <p class="quiet">{inShoot.length === 1 ? "None under this plan." : "None under these plans."}</p>
      ) : (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a wide table is scrolled by keyboard
        <section class="metered" tabIndex={0} aria-label="Table of meter readings">
          <table>
            <thead>
              <tr>
                <th scope="col">read</th>
                <th scope="col">light</th>
                <th scope="col">where</th>
                <th scope="col">ISO</th>
                {hasNotes && <th scope="col">note</th>}
              </tr>
            </thead>
            {under.map(({ key, title }) => (
              <tbody key={key}>
                {inShoot.length > 1 && (
                  <tr>
                    <th scope="rowgroup" colSpan={hasNotes ? 5 : 4} class="under">
                      {title}
                    </th>
                  </tr>
                )}
                {rows
                  .filter((row) => row.key === key)
                  .map(({ plan, reading }) => (
                    <tr key={reading.name}>
                      <th scope="row" class="middle">
                        {formatFStops(reading.fNumber)}
                      </th>
                      <td>{lightWords(reading.light)}</td>
                      <td>{whereWords(plan, reading, units)}</td>
                      <td>{rounded(reading.iso, 1)}</td>
                      {hasNotes && <td>{reading.note}</td>}
                    </tr>
                  ))}
              </tbody>
            ))}
          </table>
        </section>
      )}
    </section>
  );
}
