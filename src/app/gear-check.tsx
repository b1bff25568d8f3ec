import type { ComponentChildren } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import { finalUse } from "../deliver/index.ts";
import { type CanAbout, type CanRow, canItDo, type Shelf, stopsForCamera } from "../gear/index.ts";
import { type FieldPath, type Light, type Plan, setField } from "../plan/index.ts";
import { lengthsIn } from "../units/index.ts";
import { type Bench, makeEdit, type View } from "./bench.ts";
import { fNumberText, parseFNumber } from "./entries.ts";
import type { PutBrief } from "./find-part.tsx";
import { HeadTimes } from "./gear-head.tsx";
import { ShootingFields } from "./gear-mains.tsx";
import { PutOn } from "./gear-put-on.tsx";
import { useStore } from "./hooks.ts";
import { chosenPerson } from "./layer-height.ts";
import { fNumberAt, readingPlaces } from "./light-reads.ts";
import { NumberField } from "./number-field.tsx";
import { capital, signedStops } from "./wording.ts";

interface CheckProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly shelf: Shelf | null;
  /** the light that somebody comes from */
  readonly sought: number | null;
}

/** The light that is taken hold of, by its number; null where none is. */
export function lightOf({ gear, selected }: View): number | null {
  const match = gear === "shelf" || gear === "packing" ? null : /^lights\[(\d+)\]$/.exec(selected ?? "");
  return match === null ? null : Number(match[1]);
}

/** Each light of the plan against its dial, its charging, its flash and the shutter, with the ways out in numbers. */
export function Check({ bench, plan, shelf, sought }: CheckProps) {
  const view = useStore(bench.view);
  const { units } = view;
  const { fNumber } = plan.camera;
  const [asked, ask] = useState<Asked>({ reads: fNumber, wanted: fNumber });
  // another aperture on the camera is another question
  useEffect(() => ask({ reads: fNumber, wanted: fNumber }), [fNumber]);
  const put = putter(bench);
  const wanted: Plan = { ...plan, camera: { ...plan.camera, fNumber: asked.wanted } };
  const stopsMore = stopsForCamera(wanted, asked.reads);
  const final = finalUse(wanted, chosenPerson(plan, view));
  return (
    <div class="gear-weights">
      <section class="gear-mains" aria-labelledby="asked-title">
        <h2 id="asked-title">What is asked</h2>
        <Wanted {...{ bench, plan, asked, ask, stopsMore }} />
        <ShootingFields {...{ put, plan }} />
      </section>
      <section class="gear-stands" aria-labelledby="can-title">
        <h2 id="can-title">Can it do that?</h2>
        {plan.lights.length === 0 && <p class="quiet">No light is in the plan: add one there first.</p>}
        {plan.lights.map((light, i) => (
          <article key={i} class="gear-can" aria-label={light.name}>
            <Heading isSought={sought === i}>
              {light.name} <span class="quiet">{onIt(light)}</span>
            </Heading>
            <dl>
              {canItDo(wanted, i, { units, stopsMore, shelf, final }).rows.map((row) => (
                <Row key={row.about} row={row} />
              ))}
            </dl>
            <div class="gear-numbers">
              {shelf !== null && <PutOn {...{ bench, plan, shelf, light }} index={i} />}
              <HeadTimes {...{ put, light }} index={i} />
            </div>
          </article>
        ))}
      </section>
    </div>
  );
}

/** Whoever came from this light is led to it. */
export function Heading({ isSought, children }: { isSought: boolean; children: ComponentChildren }) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    if (!isSought) return;
    heading.current?.scrollIntoView({ block: "start" });
    heading.current?.focus();
  }, []);
  return (
    <h3 ref={heading} tabIndex={-1}>
      {children}
    </h3>
  );
}

function putter(bench: Bench): PutBrief {
  return (label: string, path: FieldPath, value: unknown) => {
    const why = makeEdit(bench, setField(label, path, value));
    return why === null ? null : lengthsIn(why, bench.view.get().units);
  };
}

interface Asked {
  /** f-number that all lights together read */
  readonly reads: number;
  readonly wanted: number;
}

interface WantedProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly asked: Asked;
  readonly ask: (asked: Asked) => void;
  readonly stopsMore: number;
}

/** The aperture that is wanted, against the one that the lights are set for. */
function Wanted({ bench, plan, asked, ask, stopsMore }: WantedProps) {
  const { reading, readingOf } = useStore(bench.results.store);
  const [place] = readingPlaces(plan);
  const read =
    reading === null || readingOf !== plan || place === undefined
      ? 0
      : fNumberAt(reading, place, plan.camera.iso);
  const field = (label: string, which: keyof Asked) => (
    <NumberField
      label={label}
      of="every light"
      text={fNumberText(asked[which])}
      parse={parseFNumber}
      commit={(to) => {
        ask({ ...asked, [which]: to });
        return null;
      }}
    />
  );
  const isAsSet = Math.abs(stopsMore) < 0.05;
  return (
    <fieldset class="group">
      <legend>aperture</legend>
      {field("lights are set for", "reads")}
      {field("wanted", "wanted")}
      <p class="quiet small" aria-live="polite">
        {isAsSet ? "every light as it is set" : `${signedStops(stopsMore)} stops asked of every light`}
      </p>
      {place !== undefined && read > 0 && fNumberText(read) !== fNumberText(asked.reads) && (
        <p class="quiet small">
          {place.words} reads {fNumberText(read)} with everything on:{" "}
          <button type="button" onClick={() => ask({ ...asked, reads: read })}>
            set for that
          </button>
        </p>
      )}
    </fieldset>
  );
}

function onIt({ head }: Light): string {
  return [head?.name, head?.modifier].filter((name) => name !== undefined).join(", ");
}

const ABOUT: Readonly<Record<CanAbout, string>> = {
  power: "power",
  recycle: "charging",
  duration: "flash and motion",
  sync: "shutter",
};

function Row({ row: { about, sentence, ways, word } }: { row: CanRow }) {
  return (
    <div>
      <dt>{ABOUT[about]}</dt>
      <dd>
        <strong>{capital(word)}</strong>
        <span class="line">{capital(sentence)}.</span>
        {ways.length > 0 && (
          <ul>
            {ways.map(({ effect, what }) => (
              <li key={what}>
                {what}
                <span class="quiet small line">{effect}</span>
              </li>
            ))}
          </ul>
        )}
      </dd>
    </div>
  );
}
