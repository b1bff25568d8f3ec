import { EYE_NOTE, type FinalUse, notesOf, type Smear, smearWords, useFacts } from "../deliver/index.ts";
import type { LengthUnits } from "../units/index.ts";

interface ToldProps {
  readonly use: FinalUse;
  readonly units: LengthUnits;
}

/** What the file holds at this size, and how wide each fault draws a point, against what the eye tells apart. */
export function Told({ use, units }: ToldProps) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keys
    <section class="use-told" tabIndex={0} aria-label="What comes of it">
      <section aria-labelledby="use-holds">
        <h2 id="use-holds">What the file holds</h2>
        <dl class="use-facts">
          {useFacts(use, units).map(({ isShort, rest, strong, term }) => (
            <div key={term}>
              <dt class="quiet">{term}</dt>
              <dd>
                <strong class={isShort ? "middle alert" : "middle"}>{strong}</strong>{" "}
                <span class="line">{rest}</span>
              </dd>
            </div>
          ))}
        </dl>
      </section>
      <section aria-labelledby="use-smears">
        <h2 id="use-smears">How wide a point becomes</h2>
        <p class="quiet">
          In the finished picture. The upright line is what the eye tells apart from there,{" "}
          {use.eye_mm.toFixed(2)} mm.
        </p>
        <ul class="smears">
          {use.smears.map((smear) => (
            <SmearRow key={smear.what} use={use} smear={smear} units={units} />
          ))}
        </ul>
        {notesOf(use, units).map((note) => (
          <p key={note} class="quiet small">
            {note}
          </p>
        ))}
        <p class="quiet small">{EYE_NOTE}</p>
      </section>
    </section>
  );
}

/** How many times what the eye tells apart the drawing is wide: what is more runs on past its end. */
const WIDEST = 4;

function SmearRow({ use, smear, units }: ToldProps & { smear: Smear }) {
  const { file, isSeen, remedy, size, state } = smearWords(use, smear, units);
  const share = Math.min(1, smear.timesEye / WIDEST);
  return (
    <li>
      <p class="smear-what">
        <span>{smear.what}</span> <strong>{size}</strong>
        {file !== null && <span class="quiet"> {file}</span>}
      </p>
      <svg class="smear-bar" viewBox="0 0 100 8" preserveAspectRatio="none" aria-hidden="true">
        <rect x="0" y="2" width={100 * share} height="4" />
        {share === 1 && <path d="M97 0 L100 4 L97 8" />}
        <path d={`M${100 / WIDEST} 0 V8`} />
      </svg>
      <p class={isSeen ? undefined : "quiet"}>
        {state}
        {remedy !== null && <span class="line quiet">{remedy}</span>}
      </p>
    </li>
  );
}
