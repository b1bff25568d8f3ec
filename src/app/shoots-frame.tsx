import { useState } from "preact/hooks";
import type { Pick as FramePick, FrameRow, PlanInShoot, Stars } from "../shoots/index.ts";
import { pictureOf } from "./frames-client.ts";
import { ask } from "./server.ts";
import { stateOfFrame } from "./shoots-states.ts";
import { awayText, clippedText, frameLight, frameTime, starWords } from "./shoots-words.ts";
import { troubleOf } from "./trouble.ts";

interface InHandProps {
  readonly frame: FrameRow;
  readonly plans: readonly PlanInShoot[];
  readonly pick: (change: FramePick) => void;
}

const STARS = [0, 1, 2, 3, 4, 5] as const satisfies readonly Stars[];

/** The frame in hand: larger, with what is known of it and what it can be marked with. */
export function FrameInHand({ frame, plans, pick }: InHandProps) {
  const { isSelect, name, path, stars } = frame;
  const under = stateOfFrame(plans, frame);
  const folder = path === null ? null : path.slice(0, -name.length).replace(/[\\/]$/, "");
  return (
    <section class="frame-in-hand" aria-label={`Frame in hand: ${name}`}>
      <Picture key={frame.id} frame={frame} folder={folder} />
      <div>
        <h3 class="file-name">{name}</h3>
        <p>
          {frameTime(frame)} <span class="quiet">{frameLight(frame)}</span>
        </p>
        {clippedText(frame) !== "" && <p class="alert">{clippedText(frame)}</p>}
        {under !== null && <p class="quiet small">under {under}</p>}
        <p class="quiet small">
          {folder === null ? "handed over by a browser, which does not say where it lies" : `in ${folder}`}
        </p>
        <fieldset class="row star-row">
          <legend class="visually-hidden">stars; keys 0 to 5 in the list</legend>
          <span aria-hidden="true" class="quiet">
            stars
          </span>
          {STARS.map((many) => (
            <button
              key={many}
              type="button"
              aria-pressed={stars === many}
              onClick={() => pick({ stars: many })}
            >
              <span aria-hidden="true">{many === 0 ? "none" : many}</span>
              <span class="visually-hidden">{starWords(many)}</span>
            </button>
          ))}
        </fieldset>
        <p>
          <button type="button" aria-pressed={isSelect} onClick={() => pick({ isSelect: !isSelect })}>
            select
          </button>{" "}
          <span class="quiet small">{isSelect ? "it is one" : "or key s in the list"}</span>
        </p>
      </div>
    </section>
  );
}

/** The longer side of a small picture. */
const SMALL = 320;

/** From the photograph itself. Where that lies elsewhere now the server gives the small picture in its place, and what to do
 * is said. */
function Picture({ frame, folder }: { frame: FrameRow; folder: string | null }) {
  const [missing, setMissing] = useState<string | null>(null);
  const isSmall = ({ naturalHeight, naturalWidth }: HTMLImageElement) =>
    Math.max(naturalHeight, naturalWidth) <= SMALL && Math.max(frame.width, frame.height) > SMALL;
  const why = () =>
    ask(pictureOf(frame.id)).then(
      () => setMissing("the browser cannot show this picture"),
      (error: unknown) => setMissing(troubleOf(error)),
    );
  return (
    <div class="frame-picture">
      <img
        src={pictureOf(frame.id)}
        alt={frame.name}
        decoding="async"
        onLoad={(event) => setMissing(isSmall(event.currentTarget) ? awayText(folder) : null)}
        onError={(event) => {
          event.currentTarget.hidden = true;
          void why();
        }}
      />
      {missing !== null && (
        <p class={`${folder === null ? "quiet" : "alert"} small`} role="status">
          {missing}
        </p>
      )}
    </div>
  );
}
