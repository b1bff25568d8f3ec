import { useMemo, useState } from "preact/hooks";
import { apparentPart, type FinalUse, finalUse, mmWords, pixelWords, smearWidth } from "../deliver/index.ts";
import type { Plan } from "../plan/index.ts";
import type { LengthUnits } from "../units/index.ts";
import type { TestFrame } from "../workbench/index.ts";
import type { Bench } from "./bench.ts";
import { Either } from "./edge-settings.tsx";
import { lengthText } from "./entries.ts";
import { ChoiceField } from "./fields.tsx";
import { pictureOf } from "./frames-client.ts";
import { useSize, useStore } from "./hooks.ts";
import { shootDeskOf, shownFrame } from "./shoot-desk.ts";
import { levelPixels } from "./use-final-entries.ts";
import { PartView, usePhotoPart, usePlannedPart } from "./use-final-picture.tsx";
import { ScreenFields, useScreen } from "./use-final-screen.tsx";

interface SizeProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly use: FinalUse;
  readonly units: LengthUnits;
}

const MIDDLE = "the picture’s middle";
const EYE = "the eye in focus";
const TALLEST_PX = 460;

/** A part of the picture as large on this screen as it will look from where people stand. */
export function TrueSize({ bench, plan, use, units }: SizeProps) {
  const screen = useScreen();
  const frame = shownFrame(useStore(shootDeskOf(bench).store));
  const [isPhoto, setPhoto] = useState(false);
  const [chosen, choose] = useState<string | null>(null);
  const [box, size] = useSize<HTMLDivElement>();
  const seen = isPhoto ? frame : null;
  const shown = useMemo(() => (seen === null ? use : (photoUse(plan, seen) ?? use)), [plan, seen, use]);
  const places = seen === null ? placesOf(use) : placesIn(seen, shown);
  const place = places.find(({ name }) => name === chosen) ?? places[0];
  const at = place?.at ?? [0.5, 0.5];
  const room = { width: Math.max(80, size?.width ?? 80), height: TALLEST_PX };
  const part = apparentPart(shown, screen, at, room);
  const planned = usePlannedPart(bench, plan, part, screen.density, seen === null && size !== null);
  const photo = usePhotoPart(seen === null ? null : pictureOf(seen.id), part.region);
  const smear = place?.smear_mm ?? 0;
  const printMmPerPx = part.print_mm / part.width_px;
  const words = `${lengthText(part.print_mm / 1000, units)} of the picture across, as it looks from ${lengthText(use.away_m, units)}`;
  return (
    <section class="use-size" aria-labelledby="use-size-title" aria-busy={planned.isWorking}>
      <h2 id="use-size-title">As large as it will look</h2>
      <div class="row">
        <Either text="as planned" on={!isPhoto} choose={() => setPhoto(false)} />
        {frame !== null && (
          <Either text={frame.reading.image.name} on={isPhoto} choose={() => setPhoto(true)} />
        )}
        {frame === null && bench.desk !== null && (
          <span class="quiet">a test frame is shown here too, once one has come</span>
        )}
      </div>
      {places.length > 1 && (
        <ChoiceField
          label="looked at"
          of="part of the picture"
          value={place?.name ?? MIDDLE}
          choices={places.map(({ name }) => [name, name] as const)}
          choose={choose}
        />
      )}
      <div ref={box} class="true-size-box">
        <PartView
          source={seen === null ? planned.source : photo.source}
          part={part}
          density={screen.density}
          smear_px={smear / printMmPerPx}
          label={words}
        />
      </div>
      <p class="quiet refining" data-on={seen === null && planned.isWorking}>
        rough as yet: it is being worked out
      </p>
      {seen === null && use.focusAt !== null && !isUsed(use, use.focusAt) && (
        <p class="alert">
          The eye in focus is not in it: at these proportions the part that is used leaves it out. Turn or
          move the camera, or give other proportions.
        </p>
      )}
      <p>
        {words}
        {part.filePixels !== null && `; ${Math.round(part.filePixels)} pixels of the file across`}.
        {smear > 0 && place && ` Points are drawn ${mmWords(smear)} wide, as at ${place.name}.`}
        {seen !== null && ` The photograph as it is, ${pixelWords(seen.reading.image)}.`}
        {photo.isMissing && " The browser cannot show this photograph: take a JPEG or PNG of it."}
      </p>
      {part.screenFrom_m > screen.away_m && (
        <p class="quiet">
          This screen’s own pixels are seen from nearer than {lengthText(part.screenFrom_m, units)}: it shows
          less than a print can. Sit back that far, or judge by the numbers.
        </p>
      )}
      <ScreenFields bench={bench} screen={screen} />
    </section>
  );
}

interface Place {
  readonly name: string;
  readonly at: readonly [number, number];
  /** all but the file's own grid, which the picture has already */
  readonly smear_mm: number;
}

/** Where there is something to judge, with how wide a point is there. */
function placesOf(use: FinalUse): Place[] {
  const middle = middleOf(use);
  const eye = use.focusAt;
  return [
    ...(eye !== null && isUsed(use, eye) ? [{ name: EYE, at: eye, smear_mm: smearWidth(use, null) }] : []),
    ...use.smears.flatMap((smear): Place[] => {
      if (smear.at === null) return [];
      const { x, y } = smear.at;
      const name = smear.what.replace(/^focus at /, "");
      return isUsed(use, [x, y]) ? [{ name, at: [x, y], smear_mm: smearWidth(use, smear) }] : [];
    }),
    { name: MIDDLE, at: middle, smear_mm: smearWidth(use, null) },
  ];
}

function isUsed({ used }: FinalUse, [x, y]: readonly [number, number]): boolean {
  return x > used.left && x < used.right && y > used.top && y < used.bottom;
}

/** The same use of a photograph: its own pixels and proportions in place of the plan's. */
function photoUse(plan: Plan, { reading }: TestFrame): FinalUse | null {
  const { height, width } = reading.image;
  const orientation = height > width ? "portrait" : "landscape";
  const [long, short] = [Math.max(width, height), Math.min(width, height)];
  const sensor = { width: 36, height: (36 * short) / long };
  const camera = {
    ...plan.camera,
    orientation,
    sensor,
    pixels: levelPixels([width, height], sensor),
  } as const;
  return finalUse({ ...plan, camera }, 0);
}

/** Eyes lie this far down the box round a face (the figure's own head). */
const EYE_LINE = 0.4;

/** Its faces, and its middle; a photograph is smeared as it was taken. */
function placesIn({ reading }: TestFrame, use: FinalUse): Place[] {
  const { faces, image } = reading;
  const eyes = faces.map(({ box }, i): Place => {
    const name = faces.length === 1 ? "the eyes" : `the eyes of face ${i + 1}`;
    const [across, down] = [box.left + box.width / 2, box.top + EYE_LINE * box.height];
    return { name, at: [across / image.width, down / image.height], smear_mm: 0 };
  });
  return [...eyes, { name: MIDDLE, at: middleOf(use), smear_mm: 0 }];
}

function middleOf({ used }: FinalUse): readonly [number, number] {
  return [(used.left + used.right) / 2, (used.top + used.bottom) / 2];
}
