/** What a modifier takes, worked out from readings. */
import { useState } from "preact/hooks";
import { type HandReading, lossOfReadings, readingAt } from "../gear/index.ts";
import { ChoiceField } from "./fields.tsx";
import { Fold } from "./fold.tsx";
import type { PieceProps } from "./gear-pieces.tsx";
import { AT_M, Held, ISO, Reads, Take } from "./gear-reading.tsx";
import { stopsWord } from "./light-words.ts";

/** What a modifier takes, by two readings of the same flash: the bare head, and through it. */
export function LossEntry({ shelf, put, units, piece, path }: PieceProps<"modifiers">) {
  const { beam, face, loss, name } = piece;
  const [chosen, choose] = useState(shelf.heads[0]?.name ?? "");
  const head = shelf.heads.find((each) => each.name === chosen);
  const [held, setHeld] = useState<HandReading>({ fNumber: 8, iso: ISO, distance: AT_M, receptor: "flat" });
  const [reads, setReads] = useState<{ readonly bare?: number; readonly through?: number }>({});
  if (head === undefined)
    return (
      <p class="quiet small">
        Put a head on the shelf, and what {name} takes can be worked out from readings.
      </p>
    );
  // to begin with, what the shelf says they would be
  const bare = reads.bare ?? readingAt(head.full, head.bare, 0, held.distance, held.iso);
  const through = reads.through ?? readingAt(head.full, { face, beam }, loss.stops, held.distance, held.iso);
  const lost = lossOfReadings(
    { front: head.bare, reading: { ...held, fNumber: bare } },
    { front: { face, beam }, reading: { ...held, fNumber: through } },
  );
  const stops = Number(lost.toFixed(2));
  const says =
    stops < 0
      ? `by these readings ${stopsWord(-stops)} more leaves than went in: look again at both readings, the distance and the beams`
      : `takes ${stopsWord(stops)} of all that the bare head sends out`;
  return (
    <Fold word="worked out" of={name} sums="by two readings">
      <ChoiceField
        label="on"
        of={`${name}, two readings`}
        value={chosen}
        choices={shelf.heads.map((each) => [each.name, each.name] as const)}
        choose={choose}
      />
      <Reads label="bare" of={name} fNumber={bare} put={(to) => setReads({ ...reads, bare: to })} />
      <Reads label="with it" of={name} fNumber={through} put={(to) => setReads({ ...reads, through: to })} />
      <Held of={name} units={units} reading={held} put={setHeld} />
      <p class="quiet small">both at the same power, the meter on the axis and facing the front</p>
      <Take
        says={says}
        isOff={stops < 0}
        take={() => put(`${name} as measured`, [...path, "loss"], { stops, from: "measured" })}
      />
    </Fold>
  );
}
