import { useState } from "preact/hooks";
import type { Bench } from "./bench.ts";
import { lengthText, parseLengthText } from "./entries.ts";
import type { FileActions, FileNews } from "./file-actions.ts";
import { useStore } from "./hooks.ts";
import { later } from "./later.tsx";
import { NumberField } from "./number-field.tsx";
import { beginRoom, type RoomSize, USUAL_ROOM } from "./start-room.ts";
import type { Store } from "./store.ts";

const FoundRoom = later(async () => (await import("./start-questions.tsx")).FoundRoom);

interface EmptyRoomProps {
  readonly bench: Bench;
  readonly files: FileActions;
  readonly news: Store<FileNews | null>;
}

type Stands = "found" | "first" | "empty";
const STANDS: readonly (readonly [Stands, string])[] = [
  ["found", "with a set-up, found for the look you want"],
  ["first", "with somebody, one light and a meter"],
  ["empty", "empty but for the camera"],
];

const SIDES = ["width", "depth", "height"] as const;

/** The room that there is, in the units that are in force; with nobody in it, with a first set-up to move about, or with one
 * that is found. */
export function EmptyRoom({ bench, files, news }: EmptyRoomProps) {
  const { units } = useStore(bench.view);
  const [room, setRoom] = useState<RoomSize>(USUAL_ROOM);
  const [stands, setStands] = useState<Stands>("first");

  function commit(side: keyof RoomSize, value: number): string | null {
    const began = beginRoom({ ...room, [side]: value }, false);
    if (!began.ok) return `${began.problems[0]?.what.replace(/^must/, "It must")}.`;
    setRoom({ ...room, [side]: value });
    return null;
  }

  function begin() {
    const began = beginRoom(room, stands === "first");
    if (began.ok) void files.newPlan(began.plan);
    else news.set({ heading: "This room cannot be begun with", problems: began.problems });
  }

  return (
    <section aria-labelledby="start-room">
      <h2 id="start-room">a new room</h2>
      <div class="room-sizes">
        {SIDES.map((side) => (
          <NumberField
            key={side}
            label={side}
            of="new room"
            text={lengthText(room[side], units)}
            parse={(text) => parseLengthText(text, units)}
            commit={(value) => commit(side, value)}
            step={(way, large) =>
              commit(side, Math.round((room[side] + way * (large ? 1 : 0.1)) * 100) / 100)
            }
          />
        ))}
      </div>
      <fieldset class="furnish">
        <legend class="visually-hidden">what stands in it</legend>
        {STANDS.map(([what, words]) => (
          <label key={what}>
            <input type="radio" name="furnish" checked={stands === what} onChange={() => setStands(what)} />
            <span>{words}</span>
          </label>
        ))}
      </fieldset>
      {stands === "found" ? (
        <FoundRoom bench={bench} files={files} news={news} room={room} />
      ) : (
        <button type="button" class="begin" onClick={begin}>
          begin in this room
        </button>
      )}
    </section>
  );
}
