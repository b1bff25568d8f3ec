import { useRef, useState } from "preact/hooks";
import type { FrameRow } from "../shoots/index.ts";
import type { TestFrame } from "../workbench/index.ts";
import type { Bench } from "./bench.ts";
import { Question } from "./question.tsx";
import { shootDeskOf } from "./shoot-desk.ts";
import { lostWords } from "./shoot-words.ts";
import { troubleOf } from "./trouble.ts";

const [KEEP, TAKE_OUT] = [0, 1];

/** Takes the frame in sight out of the library. Where somebody gave it stars, or made it a select, it is asked first. */
export function TakeOut({ bench, frame }: { readonly bench: Bench; readonly frame: TestFrame }) {
  const [asked, setAsked] = useState<FrameRow | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const button = useRef<HTMLButtonElement>(null);
  const id = `take-out-${frame.id}`;

  async function start() {
    setTrouble(null);
    try {
      const row = (await bench.library?.frame(frame.id)) ?? null;
      if (row !== null && lostWords(row) !== null) setAsked(row);
      else await takeOut();
    } catch (error) {
      setTrouble(troubleOf(error));
    }
  }
  async function takeOut() {
    setTrouble(await shootDeskOf(bench).forget(frame.id));
  }
  function leave() {
    button.current?.focus();
    setAsked(null);
  }

  return (
    <>
      <button type="button" ref={button} onClick={() => void start()}>
        take out of the library<span class="visually-hidden">: {frame.name}; the file stays</span>
      </button>
      {asked !== null && (
        <Question
          id={id}
          text={`${frame.name} ${lostWords(asked)}: that goes with it. The photograph stays where it lies.`}
          // the first has the focus: a key that is held down must not answer
          meanings={[
            { text: "keep it", value: KEEP },
            { text: "take it out", value: TAKE_OUT },
          ]}
          choose={(value) => {
            leave();
            if (value === TAKE_OUT) void takeOut();
          }}
          leave={leave}
        />
      )}
      {trouble !== null && (
        <p class="why alert" role="alert">
          {trouble}
        </p>
      )}
    </>
  );
}
