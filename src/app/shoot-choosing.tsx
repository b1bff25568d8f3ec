import { type PhotoFace, skinText } from "../testframe/index.ts";
import type { TestFrame } from "../workbench/index.ts";
import type { Bench } from "./bench.ts";
import { CameraCurve } from "./shoot-curve.tsx";
import { eyeLines } from "./shoot-eyes.ts";
import { clipWords, nearWords, TonesDrawing } from "./shoot-tones.tsx";

interface ChoosingProps {
  readonly bench: Bench;
  readonly frame: TestFrame;
  readonly face: PhotoFace | null;
  readonly frames: readonly TestFrame[];
  readonly faces: Readonly<Record<string, number>>;
}

/** What speaks for this frame among the others, and how its tones lie. */
export function Choosing({ bench, frame, face, frames, faces }: ChoosingProps) {
  const { image } = frame.reading;
  const skin = face === null ? null : skinText(face);
  return (
    <div class="choosing">
      <section aria-labelledby="eyes-title">
        <h2 id="eyes-title">Eyes</h2>
        {face === null ? (
          <p class="quiet">no face, no eyes</p>
        ) : (
          <ul>
            {eyeLines(frame, face, frames, faces).map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        )}
      </section>
      <section aria-labelledby="tones-title">
        <h2 id="tones-title">Tones</h2>
        <TonesDrawing image={image} face={face} />
        <ul>
          {skin !== null && <li class={skin.over ? "alert" : undefined}>{skin.text}</li>}
          <li>
            {clipWords(image)}; {nearWords(image)}
          </li>
        </ul>
      </section>
      <section class="camera" aria-labelledby="camera-title">
        <h2 id="camera-title">Camera</h2>
        <p class="quiet">{responseWords(image.response)}</p>
        <CameraCurve bench={bench} frames={frames} />
      </section>
    </div>
  );
}

function responseWords(response: TestFrame["reading"]["image"]["response"]): string {
  if (response === null)
    return "the camera's curve is not known: stops are as the file's standard says, and wide";
  return `by the curve of ${response.body}, fitted within ${response.rmsStops.toFixed(2)} stop`;
}
