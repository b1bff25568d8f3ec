/** Full power of a head, worked out from what somebody has in hand. */
import { useState } from "preact/hooks";
import {
  type Front,
  guideNumberOf,
  type HandReading,
  powerOfGuideNumber,
  powerOfReading,
  readingAt,
  type Shelf,
} from "../gear/index.ts";
import { outsideDial, readPower, writePower } from "../plan/index.ts";
import { lengthText, parseLengthText, parseNumber } from "./entries.ts";
import { ChoiceField } from "./fields.tsx";
import { Fold } from "./fold.tsx";
import type { PieceProps } from "./gear-pieces.tsx";
import { AT_M, Held, ISO, Reads, Take, taken } from "./gear-reading.tsx";
import { tidy } from "./light-words.ts";
import { NumberField } from "./number-field.tsx";

const BARE = "";

/** Full power by guide number, or by a reading of one flash. It begins with what the shelf says now. */
export function HeadEntry(props: PieceProps<"heads">) {
  const [way, setWay] = useState("guide number");
  const { name } = props.piece;
  return (
    <Fold word="worked out" of={name} sums="by guide number or a reading">
      <ChoiceField
        label="by"
        of={`${name}, full power worked out`}
        value={way}
        choices={[
          ["guide number", "guide number"],
          ["reading", "a reading of one flash"],
        ]}
        choose={setWay}
      />
      {way === "reading" ? <ByReading {...props} /> : <ByGuideNumber {...props} />}
    </Fold>
  );
}

const wattSecondsOf = ({ full }: PieceProps<"heads">["piece"]) =>
  "wattSeconds" in full ? full.wattSeconds : null;

function ByGuideNumber({ put, units, piece, path }: PieceProps<"heads">) {
  const { bare, name } = piece;
  const [iso, setIso] = useState(ISO);
  const [number, setNumber] = useState(() => guideNumberOf(piece, ISO));
  const { full, says } = powerOfGuideNumber(number, iso, bare, wattSecondsOf(piece));
  return (
    <>
      <NumberField
        label="guide number"
        of={name}
        text={lengthText(number, units)}
        parse={(text) => parseLengthText(text, units)}
        commit={(to) => taken(to > 0, "A guide number is more than 0.", () => setNumber(to))}
      />
      <NumberField
        label="at ISO"
        of={name}
        text={tidy(iso)}
        parse={(text) => parseNumber(text, /^\s*iso\s*/i, "100")}
        commit={(to) => taken(to >= 1, "ISO is 1 or more.", () => setIso(to))}
      />
      <Take says={says} take={() => put(`${name} by its guide number`, [...path, "full"], full)} />
    </>
  );
}

function ByReading({ shelf, put, units, piece, path }: PieceProps<"heads">) {
  const { bare, dial, full, name } = piece;
  const [through, setThrough] = useState(BARE);
  const [down, setDown] = useState(0);
  const front = frontOf(shelf, through, bare);
  const [reading, setReading] = useState<HandReading>(() => ({
    fNumber: readingAt(full, bare, 0, AT_M, ISO),
    iso: ISO,
    distance: AT_M,
    receptor: "flat",
  }));
  const full_Ws = wattSecondsOf(piece);
  const found = powerOfReading(reading, front, front.lost, down, full_Ws);
  return (
    <>
      <Reads
        label="meter read"
        of={name}
        fNumber={reading.fNumber}
        put={(fNumber) => setReading({ ...reading, fNumber })}
      />
      <Held of={name} units={units} reading={reading} put={setReading} />
      <ChoiceField
        label="through"
        of={name}
        value={through}
        choices={[[BARE, "nothing: bare"], ...shelf.modifiers.map((on) => [on.name, on.name] as const)]}
        choose={setThrough}
      />
      <NumberField
        label="power then"
        of={name}
        text={writePower(down, dial, full_Ws)}
        parse={(text) => {
          const stops = readPower(text, dial, full_Ws);
          return stops === null
            ? { ok: false, why: `“${text.trim()}” is no power: give one such as −2.2, 1/4 or 87 Ws.` }
            : { ok: true, value: stops };
        }}
        commit={(to) =>
          taken(
            outsideDial(to, dial) === 0,
            `The dial goes from full to ${writePower(dial.range, dial, full_Ws)}.`,
            () => setDown(Math.max(0, to)),
          )
        }
      />
      <Take says={found.says} take={() => put(`${name} as read`, [...path, "full"], found.full)} />
    </>
  );
}

function frontOf(shelf: Shelf, name: string, bare: Front): Front & { readonly lost: number } {
  const on = shelf.modifiers.find((each) => each.name === name);
  return on === undefined ? { ...bare, lost: 0 } : { face: on.face, beam: on.beam, lost: on.loss.stops };
}
