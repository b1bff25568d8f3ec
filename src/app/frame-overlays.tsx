import type { ComponentChildren } from "preact";
import { useId, useMemo } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import type { FramePicture } from "../workbench/index.ts";
import type { Bench } from "./bench.ts";
import { FrameFraming } from "./frame-framing.tsx";
import { type FrameLook, MOST_LIFT } from "./frame-look.ts";
import { clippedShares } from "./frame-paint.ts";
import { FramePrint } from "./frame-print.tsx";
import { zonesBelow } from "./frame-zones.ts";
import { percent, signedStops } from "./wording.ts";

interface OverlaysProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly person: number;
  readonly look: FrameLook;
  readonly picture: FramePicture | null;
}

/** Ways to look at the print, as words under it. */
export function OverlayWords({
  bench,
  look,
  children,
}: {
  bench: Bench;
  look: FrameLook;
  children?: ComponentChildren;
}) {
  const put = (change: Partial<FrameLook>) => bench.view.update({ look: { ...look, ...change } });
  const words: readonly (readonly [string, boolean, Partial<FrameLook>])[] = [
    ["clipping", look.clipping, { clipping: !look.clipping }],
    ["zones", look.zones, { zones: !look.zones }],
    ["black and white", look.mono.on, { mono: { ...look.mono, on: !look.mono.on } }],
    ["thirds", look.thirds, { thirds: !look.thirds }],
    ["crops", look.crops, { crops: !look.crops }],
    ["print", look.finalUse, { finalUse: !look.finalUse }],
  ];
  return (
    <fieldset class="overlay-words">
      <legend class="visually-hidden">how the picture is looked at</legend>
      {words.map(([word, isOn, change]) => (
        <button key={word} type="button" aria-pressed={isOn} onClick={() => put(change)}>
          {word}
        </button>
      ))}
      {children}
    </fieldset>
  );
}

/** What the overlays that are on mean, and what can be set about them. */
export function OverlaySettings({ bench, plan, person, look, picture }: OverlaysProps) {
  return (
    <>
      {look.clipping && <ClippingLegend picture={picture} />}
      {look.zones && <ZoneLegend headroom={plan.camera.headroom} />}
      {look.mono.on && !look.zones && <MonoSettings bench={bench} look={look} />}
      {look.crops && <FrameFraming bench={bench} plan={plan} person={person} />}
      {look.finalUse && <FramePrint bench={bench} plan={plan} />}
    </>
  );
}

function ClippingLegend({ picture }: { picture: FramePicture | null }) {
  const shares = useMemo(() => picture && clippedShares(picture), [picture]);
  const words = (share: number | undefined) => (share ? `${percent(share)} of the picture` : "nothing");
  return (
    <p class="legend quiet">
      <span>
        <i class="sample stripes" /> clipped skin: {words(shares?.skin)}
      </span>
      <span>
        <i class="sample dots" /> elsewhere: {words(shares?.elsewhere)}
      </span>
    </p>
  );
}

function ZoneLegend({ headroom }: { headroom: number }) {
  const zones = zonesBelow(headroom);
  const name = (stops: number) => (stops === 0 ? "0" : `${stops < 0 ? "−" : "+"}${Math.abs(stops)}`);
  return (
    <figure class="zones">
      <figcaption class="quiet">
        stops from the middle level (18 % grey as metered); clips from {signedStops(headroom)}
      </figcaption>
      <ol style={{ gridTemplateColumns: `repeat(${zones.length}, minmax(0, 1fr)) auto` }}>
        {zones.map(({ stops, rgb }, i) => (
          <li key={stops}>
            <i style={{ background: `rgb(${rgb.join(" ")})` }} />
            {name(stops)}
            {i === 0 && <span class="visually-hidden"> and under</span>}
          </li>
        ))}
        <li>
          <i class="over" />
          clips
        </li>
      </ol>
    </figure>
  );
}

function MonoSettings({ bench, look }: { bench: Bench; look: FrameLook }) {
  const put = (change: Partial<FrameLook["mono"]>) =>
    bench.view.update({ look: { ...look, mono: { ...look.mono, ...change } } });
  const { contrast, shadowLift } = look.mono;
  return (
    <fieldset class="mono">
      <legend class="visually-hidden">black and white</legend>
      <Slider
        label="contrast"
        value={contrast}
        least={-1}
        most={1}
        text={`${(2 ** contrast).toFixed(2)} stops per stop at the middle`}
        put={(to) => put({ contrast: to })}
      />
      <Slider
        label="shadows"
        value={shadowLift}
        least={0}
        most={MOST_LIFT}
        text={
          shadowLift === 0 ? "as they are" : `${signedStops(shadowLift)} stops at black, none at the middle`
        }
        put={(to) => put({ shadowLift: to })}
      />
    </fieldset>
  );
}

interface SliderProps {
  readonly label: string;
  readonly value: number;
  readonly least: number;
  readonly most: number;
  readonly text: string;
  readonly put: (value: number) => void;
}

function Slider({ label, value, least, most, text, put }: SliderProps) {
  const id = useId();
  return (
    <div class="slider">
      <label for={id}>{label}</label>
      <input
        id={id}
        type="range"
        min={least}
        max={most}
        step={0.1}
        value={value}
        aria-valuetext={text}
        onInput={(event) => put(Number(event.currentTarget.value))}
      />
      <output for={id} class="quiet">
        {text}
      </output>
    </div>
  );
}
