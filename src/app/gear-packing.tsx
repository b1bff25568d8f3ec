import { useMemo } from "preact/hooks";
import { KINDS, type PackingLine, packingList, type Shelf, totalWords } from "../gear/index.ts";
import type { Plan } from "../plan/index.ts";
import { formatWeight, type LengthUnits } from "../units/index.ts";
import type { Bench } from "./bench.ts";
import { KIND_WORDS } from "./gear-words.ts";
import { useStore } from "./hooks.ts";
import { useKept } from "./kept.ts";

interface PackingProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly shelf: Shelf;
  /** the plan's own: what is ticked stays ticked for it alone */
  readonly planKey: string;
}

/** What the plan needs in the van: ticked off here, or printed and ticked off on paper. */
export function Packing({ bench, plan, shelf, planKey }: PackingProps) {
  const { units } = useStore(bench.view);
  const list = useMemo(() => packingList(plan, shelf, units), [plan, shelf, units]);
  const [kept, keep] = useKept(`packed.${planKey}`, "");
  const packed = new Set(kept.split("\n").filter((id) => id !== ""));
  const tick = (id: string) => {
    const next = new Set(packed);
    if (!next.delete(id)) next.add(id);
    keep([...next].join("\n"));
  };
  const done = list.lines.filter((line) => packed.has(idOf(line))).length;
  return (
    <div class="gear-packing">
      <div class="section-head">
        <h2>Packing list</h2>
        <p class="row by-screen">
          <button type="button" onClick={() => print()}>
            print it
          </button>
          <button type="button" disabled={packed.size === 0} onClick={() => keep("")}>
            clear the ticks
          </button>
        </p>
      </div>
      <p>
        Together <strong>{totalWords(list, units)}</strong>
        <span class="by-screen" role="status">
          ; {done} of {list.lines.length} lines packed
        </span>
      </p>
      {list.missing.length > 0 && (
        <section aria-labelledby="missing-gear">
          <h3 id="missing-gear">To find before leaving</h3>
          <ul class="gear-missing">
            {list.missing.map((each) => (
              <li key={each}>{each}</li>
            ))}
          </ul>
        </section>
      )}
      {KINDS.map((kind) => {
        const lines = list.lines.filter((line) => line.kind === kind);
        return lines.length === 0 ? null : (
          <section key={kind} aria-labelledby={`pack-${kind}`}>
            <h3 id={`pack-${kind}`}>{KIND_WORDS[kind]}</h3>
            <ul>
              {lines.map((line) => (
                <Line
                  key={line.name}
                  {...{ line, units }}
                  isPacked={packed.has(idOf(line))}
                  tick={() => tick(idOf(line))}
                />
              ))}
            </ul>
          </section>
        );
      })}
    </div>
  );
}

/** How many of it belong to the tick: one that was packed once is not packed twice. */
const idOf = ({ count, kind, name }: PackingLine) => `${kind} ${count} ${name}`;

interface LineProps {
  readonly line: PackingLine;
  readonly units: LengthUnits;
  readonly isPacked: boolean;
  readonly tick: () => void;
}

function Line({ line, units, isPacked, tick }: LineProps) {
  const { count, isTypical, mass, name, owners } = line;
  const of = [...new Set(owners)];
  return (
    <li>
      <label class="tick gear-line-packed">
        <input type="checkbox" checked={isPacked} onChange={tick} />
        <span class="gear-count">{count} ×</span>
        <span class="gear-packed-name">
          {name}
          {of.length > 0 && <span class="quiet small line">for {of.join(", ")}</span>}
        </span>
        <span class="gear-packed-weight">
          {mass === null ? "not weighed" : formatWeight(count * mass, units)}
          <span class="quiet small line">
            {[
              ...(mass !== null && count > 1 ? [`${formatWeight(mass, units)} each`] : []),
              ...(isTypical && mass !== null ? ["typical"] : []),
            ].join(", ")}
          </span>
        </span>
      </label>
    </li>
  );
}
