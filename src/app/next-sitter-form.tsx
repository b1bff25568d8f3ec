import { useId, useState } from "preact/hooks";
import { type NextSitter, nextSitter, sitterLadder } from "../finder/index.ts";
import type { Person, Plan } from "../plan/index.ts";
import { formatLength, type LengthUnits } from "../units/index.ts";
import { type Bench, makeEdit } from "./bench.ts";
import { parseLengthText } from "./entries.ts";
import { Fold } from "./fold.tsx";
import { useStore } from "./hooks.ts";
import { NumberField } from "./number-field.tsx";

interface FormProps {
  readonly bench: Bench;
  readonly index: number;
  readonly person: Person;
}

/** Somebody else on the same mark, by stature or by the eyes. */
export function NextSitterForm({ bench, index, person }: FormProps) {
  const { units } = useStore(bench.view);
  const [name, setName] = useState("");
  const [said, say] = useState("");
  const id = useId();
  const bringIn = (next: NextSitter): string | null => {
    const named = name.trim() === "" ? next : { ...next, name: name.trim() };
    const { made, ...went } = nextSitter(bench.session.get().plan, index, named, units);
    const refusal = made.ok ? makeEdit(bench, made.edit) : `${made.why}.`;
    if (refusal === null) {
      setName("");
      const words = wentWords(went, units);
      say(words);
      bench.say.set(words);
    }
    return refusal;
  };
  const field = (label: string, by: (value: number) => NextSitter) => (
    <NumberField
      label={label}
      of="next sitter"
      text=""
      parse={(text) => parseLengthText(text, units)}
      commit={(value) => bringIn(by(value))}
    />
  );
  return (
    <Fold word="next sitter" of={person.name} sums="same light">
      <div class="number">
        <label for={id}>name</label>
        <input
          id={id}
          type="text"
          autoComplete="off"
          maxLength={80}
          value={name}
          onInput={(event) => setName(event.currentTarget.value)}
        />
      </div>
      {field("stature", (stature) => ({ stature }))}
      {field("or the eyes, by tape", (eyeHeight) => ({ eyeHeight }))}
      <p class="quiet">
        {said === "" ? "Enter brings them in: what is set by the face goes with the eyes." : said}
      </p>
      <Ladder bench={bench} index={index} units={units} />
    </Fold>
  );
}

type Went = Pick<ReturnType<typeof nextSitter>, "rise_m" | "moves" | "stays">;

function wentWords({ rise_m, moves, stays }: Went, units: LengthUnits): string {
  const by = `${formatLength(Math.abs(rise_m), units)} ${rise_m < 0 ? "down" : "up"}`;
  const still = stays.length === 0 ? "" : ` Stays: ${stays.join("; ")}.`;
  return moves.length === 0 ? `Nothing went along.${still}` : `${by}: ${moves.join(", ")}.${still}`;
}

/** 1.50 to 1.95 m in steps of 5 cm. */
const STATURES = Array.from({ length: 10 }, (_, i) => (150 + 5 * i) / 100);

/** Heights for a day of heads, worked out when they are asked for. */
function Ladder({ bench, index, units }: { bench: Bench; index: number; units: LengthUnits }) {
  const [of, setOf] = useState<Plan | null>(null);
  const { plan } = bench.session.get();
  if (of !== plan)
    return (
      <button type="button" onClick={() => setOf(plan)}>
        heights for a day of sitters
      </button>
    );
  const rungs = sitterLadder(plan, index, STATURES, units);
  const names = rungs.find(({ why }) => why === null)?.heights.map(({ name }) => name) ?? [];
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a wide table is scrolled by keys
    <section class="guide-table" tabIndex={0} aria-label="Heights for a day of sitters">
      <table>
        <thead>
          <tr>
            {["stature", "eyes", ...names].map((each) => (
              <th key={each} scope="col">
                {each}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rungs.map(({ stature_m, eyes_m, heights, why }) => (
            <tr key={stature_m}>
              <th scope="row">{formatLength(stature_m, units)}</th>
              <td>{formatLength(eyes_m, units)}</td>
              {why === null ? (
                heights.map(({ name, height_m }) => <td key={name}>{formatLength(height_m, units)}</td>)
              ) : (
                <td colSpan={Math.max(1, names.length)}>{why}</td>
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
