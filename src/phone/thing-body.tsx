import type { LiveThing } from "../workbench/index.ts";
import { clockOf } from "./hooks.ts";

/** As many letters as half a phone is wide in figures that are read at arm's length. */
const SHORT = 11;

/** Where it stands, how high, how it is turned; how that is found again without a tape; what is said of it. */
export function ThingBody({ thing }: { thing: LiveThing }) {
  const { placed, caution, lines, name, reach, readBack, verb } = thing;
  return (
    <>
      {placed?.isOld === true && (
        <p class="moved">
          The plan has changed it since {placed.by} ticked it at {clockOf(placed.at)}. Tick it again once{" "}
          {name} {verb} as below.
        </p>
      )}
      {caution !== null && <p class="caution">{caution}</p>}
      <dl class="lines">
        {lines.map(({ label, text }) => (
          <div key={label} data-long={text.length > SHORT}>
            <dt>{label}</dt>
            <dd>{text}</dd>
          </div>
        ))}
        {reach !== null && (
          <div class="reach" data-long>
            <dt>without a tape</dt>
            <dd>{reach}</dd>
          </div>
        )}
      </dl>
      <p class="read-back">
        <span class="quiet">say</span> {readBack}
      </p>
    </>
  );
}
