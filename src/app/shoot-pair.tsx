import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import { type FaceReading, frameAspect } from "../reading/index.ts";
import { exifLine, fromLensText, type PhotoFace } from "../testframe/index.ts";
import { formatFStops, formatShutter } from "../units/index.ts";
import type { TestFrame } from "../workbench/index.ts";
import type { Bench } from "./bench.ts";
import { rounded } from "./fields.tsx";
import { PLAIN_LOOK } from "./frame-look.ts";
import { FrameView } from "./frame-view.tsx";
import { pictureOf } from "./frames-client.ts";
import { useSize } from "./hooks.ts";
import type { Results } from "./results.ts";
import { LightArrow } from "./shoot-arrow.tsx";
import { FrameOverlay } from "./shoot-overlay.tsx";
import { plannedFace } from "./shoot-planned.ts";
import { takenText } from "./shoot-words.ts";

interface PairProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly person: number;
  readonly results: Results;
  readonly frame: TestFrame | null;
  readonly face: PhotoFace | null;
  readonly faceIndex: number;
  readonly marks: boolean;
  /** photographs can be read here at all */
  readonly hasDesk: boolean;
  readonly chooseFace: (index: number) => void;
}

/** The picture as it was planned and the frame as it came, side by side at one height. */
export function Pair(props: PairProps) {
  const { bench, plan, person, results, frame, face, faceIndex, marks, hasDesk, chooseFace } = props;
  const planned = frameAspect(plan.camera);
  const seen = frame === null ? planned : frame.reading.image.width / frame.reading.image.height;
  const read = results.readingOf === plan ? results.reading?.people[person]?.face : undefined;
  return (
    <div class="pair-of-frames" style={{ "--planned": planned, "--seen": seen }}>
      <Planned {...{ bench, plan, person, results, marks }} face={read} aspect={planned} />
      {frame === null && <Place aspect={planned} hasDesk={hasDesk} />}
      {frame !== null && (
        <Seen frame={frame} face={face}>
          {marks && face !== null && (
            <FrameOverlay {...{ frame, face }} index={faceIndex} choose={chooseFace} />
          )}
        </Seen>
      )}
    </div>
  );
}

interface PlannedProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly person: number;
  readonly results: Results;
  readonly face: FaceReading | undefined;
  readonly aspect: number;
  readonly marks: boolean;
}

function Planned({ bench, plan, person, results, face, aspect, marks }: PlannedProps) {
  const [box, size] = useSize<HTMLDivElement>();
  const width_px = size === null ? 0 : Math.round(size.width * Math.min(2, devicePixelRatio));
  useEffect(() => {
    if (width_px > 0) bench.results.setFrameWidth(width_px);
  }, [bench, width_px]);
  const { fNumber, focalLength, iso, shutter } = plan.camera;
  const line = `${rounded(focalLength, 1)} mm, ${formatFStops(fNumber)}, ${formatShutter(shutter)}, ISO ${rounded(iso, 0)}`;
  const at = face === undefined ? null : plannedFace(plan, person, face.light);
  const label =
    at === null
      ? `The picture as planned: ${line}`
      : `The picture as planned, light ${fromLensText(at.fromCamera)}: ${line}`;
  return (
    <figure class="framed planned">
      <div ref={box}>
        <FrameView picture={results.frame} aspect={aspect} look={PLAIN_LOOK} label={label}>
          {marks && at !== null && (
            <div class="guides">
              <svg viewBox={`0 0 ${1000 * aspect} 1000`} aria-hidden="true">
                <LightArrow
                  x={1000 * aspect * at.x}
                  y={1000 * at.y}
                  size={1000 * at.size}
                  from={at.fromCamera}
                />
              </svg>
            </div>
          )}
        </FrameView>
      </div>
      <figcaption>
        <strong>planned</strong>
        <span class="quiet line">{line}</span>
      </figcaption>
    </figure>
  );
}

/** Where the first frame will stand, and how it gets there. */
function Place({ aspect, hasDesk }: { aspect: number; hasDesk: boolean }) {
  return (
    <div class="frame-place" style={{ flexGrow: aspect }}>
      {hasDesk ? (
        <>
          <p>
            <strong>No frames yet.</strong> Drop photographs on this window, choose them, or name the folder
            that your camera's program writes to.
          </p>
          <p class="quiet">Files are read where they lie: none is changed, moved or deleted.</p>
        </>
      ) : (
        <p>The frame would stand here, beside the picture as it is planned.</p>
      )}
    </div>
  );
}

function Seen(props: { frame: TestFrame; face: PhotoFace | null; children: ComponentChildren }) {
  const { image } = props.frame.reading;
  const [isMissing, setMissing] = useState(false);
  const taken = takenText(image.exif);
  const light = props.face?.lightFromCamera ?? null;
  const from = light === null ? "" : `, light ${fromLensText(light)}`;
  return (
    <figure class="framed seen">
      <div class="picture-box" style={{ aspectRatio: `${image.width} / ${image.height}` }}>
        {isMissing ? (
          <p class="picture-missing">The picture is not to be had; its numbers stay.</p>
        ) : (
          <img
            class="picture"
            key={props.frame.id}
            src={pictureOf(props.frame.id)}
            alt={`The frame ${image.name}${from}`}
            width={image.width}
            height={image.height}
            decoding="async"
            onError={() => setMissing(true)}
            onLoad={() => setMissing(false)}
          />
        )}
        {props.children}
      </div>
      <figcaption>
        <strong class="file-name">{image.name}</strong>
        <span class="quiet line">
          {exifLine(image.exif) ?? "the file says nothing of its exposure"}
          {taken !== null && `, taken ${taken}`}
        </span>
        {props.frame.away !== undefined && <span class="line">{props.frame.away}</span>}
      </figcaption>
    </figure>
  );
}
