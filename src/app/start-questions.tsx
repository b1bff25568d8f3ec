import { useEffect, useRef, useState } from "preact/hooks";
import { KITS } from "../gear/index.ts";
import { applyEdit } from "../plan/index.ts";
import { patternWord } from "../reading/index.ts";
import type { Bench } from "./bench.ts";
import { ChoiceField } from "./fields.tsx";
import type { FileActions, FileNews } from "./file-actions.ts";
import { Ending, Progress } from "./find-progress.tsx";
import { findRunOf } from "./find-run.ts";
import { RATIO, spanText } from "./find-spans.ts";
import { takeEdit } from "./find-take.ts";
import { holdsLine, PATTERN_LOOKS, ratioNumbers } from "./find-words.ts";
import { useStore } from "./hooks.ts";
import {
  askedRoom,
  CONTRASTS,
  contrastOf,
  FIRST_ANSWERS,
  hasSide,
  kitOf,
  LOOKS,
  type Look,
  type Side,
  type ThreeAnswers,
} from "./start-looks.ts";
import type { RoomSize } from "./start-room.ts";
import type { Store } from "./store.ts";

interface FoundRoomProps {
  readonly bench: Bench;
  readonly files: FileActions;
  readonly news: Store<FileNews | null>;
  readonly room: RoomSize;
}

const OF = "new plan";

/** Look, contrast, gear: three answers, and a set-up that works in this room is laid on the table. Where none does, the
 * nearest come side by side with what would help. */
export function FoundRoom({ bench, files, news, room }: FoundRoomProps) {
  const [answers, setAnswers] = useState<ThreeAnswers>(FIRST_ANSWERS);
  const run = findRunOf(bench);
  const { ended, running } = useStore(run.store);
  const [hasBegun, setBegun] = useState(false);
  const isHere = useRef(true);
  useEffect(
    () => () => {
      // whoever opens something else meanwhile has given the search up
      if (isHere.current) run.stop();
      isHere.current = false;
    },
    [run],
  );
  const ready = useRef(answers);
  ready.current = answers;
  useEffect(() => {
    const asked = askedRoom(room, ready.current);
    if (asked.ok) run.prepare(asked.plan);
  }, [run, room]);
  const put = (change: Partial<ThreeAnswers>) => setAnswers({ ...answers, ...change });
  const contrast = contrastOf(answers.contrast);

  async function find() {
    const asked = askedRoom(room, answers);
    if (!asked.ok) return news.set({ heading: "This room cannot be begun with", problems: asked.problems });
    setBegun(true);
    const answer = await run.search(asked.plan, "", asked.plan, false);
    if (answer === null || !isHere.current) return;
    isHere.current = false;
    const best = answer.setUps.find((setUp) => setUp.isMet);
    const taken = best && applyEdit(asked.plan, takeEdit(asked.plan, best));
    await files.newPlan(taken?.ok ? taken.plan : asked.plan);
    run.adopt(bench.session.get().key);
    if (!taken?.ok) bench.view.update({ screen: "find" });
  }

  return (
    <div class="three">
      <fieldset class="group">
        <legend>1 the look</legend>
        <ChoiceField
          label="pattern"
          of={OF}
          value={answers.look}
          choices={LOOKS.map((look) => [look, patternWord(look)])}
          choose={(look) => put({ look: look as Look })}
        />
        <p class="quiet small">{PATTERN_LOOKS[answers.look]}</p>
        {hasSide(answers.look) && (
          <ChoiceField
            label="lit side"
            of={OF}
            value={answers.side}
            choices={[
              ["left", "own left, picture right"],
              ["right", "own right, picture left"],
              ["either", "either"],
            ]}
            choose={(side) => put({ side: side as Side })}
          />
        )}
      </fieldset>
      <fieldset class="group">
        <legend>2 the contrast</legend>
        <ChoiceField
          label="ratio"
          of={OF}
          value={answers.contrast}
          choices={CONTRASTS.map(({ name }) => [name, name])}
          choose={(name) => put({ contrast: name })}
        />
        <p class="quiet small">
          {contrast.ratioStops === null
            ? "any that the look and the room allow"
            : `${spanText(contrast.ratioStops, RATIO)}: ${ratioNumbers(contrast.ratioStops)}`}
        </p>
      </fieldset>
      <fieldset class="group">
        <legend>3 what is on hand</legend>
        <ChoiceField
          label="kit"
          of={OF}
          value={answers.kit}
          choices={KITS.map(({ name }) => [name, name])}
          choose={(kit) => put({ kit })}
        />
        <p class="quiet small">{holdsLine(kitOf(answers.kit).gear)} (common practice, no source)</p>
      </fieldset>
      {running === null || !hasBegun ? (
        <p>
          <button type="button" class="begin" onClick={() => void find()}>
            find a set-up
          </button>{" "}
          <span class="quiet small">head and shoulders; all else free</span>
        </p>
      ) : (
        <Progress bench={bench} running={running} stop={() => run.stop()} />
      )}
      {hasBegun && ended !== null && <Ending bench={bench} ended={ended} />}
    </div>
  );
}
