/** What heads and modifiers have that others have not. */
import { ChoiceField } from "./fields.tsx";
import { EntryField } from "./find-field.tsx";
import { FaceParts } from "./find-gear-front.tsx";
import { BriefNumber } from "./find-part.tsx";
import { Fold } from "./fold.tsx";
import { HeadEntry } from "./gear-enter.tsx";
import { LossEntry } from "./gear-enter-loss.tsx";
import { parseTime, timeText } from "./gear-entries.ts";
import { MaybeNumber, StoredShare } from "./gear-fields.tsx";
import { FlashTold } from "./gear-head.tsx";
import type { PieceProps } from "./gear-pieces.tsx";
import { angleText, frontWords, MARK_WORDS } from "./light-words.ts";

/** A head by itself: how strong, how its dial goes, how fast it flashes and is ready again. */
export function HeadParts({ shelf, put, units, piece, path }: PieceProps<"heads">) {
  const { bare, charging, dial, duration, full, kelvin, lampWatts, name, recycle } = piece;
  const number = (
    label: string,
    where: readonly (string | number)[],
    value: number,
    [unit, digits, stepBy]: readonly [string, number, number],
  ) => <BriefNumber {...{ put, label, value, unit, digits, stepBy }} of={name} path={[...path, ...where]} />;
  return (
    <>
      {"wattSeconds" in full ? (
        <>
          {number("full power", ["full", "wattSeconds"], full.wattSeconds, ["Ws", 1, 10])}
          {number("tube gives", ["full", "lumensPerWatt"], full.lumensPerWatt, ["lm/W", 1, 1])}
        </>
      ) : (
        number("tube gives at full", ["full", "lumenSeconds"], full.lumenSeconds, ["lm·s", 0, 100])
      )}
      <ChoiceField
        label="dial marked"
        of={name}
        value={dial.marked}
        choices={Object.entries(MARK_WORDS)}
        choose={(marked) => put(`${name} marked`, [...path, "dial", "marked"], marked)}
      />
      {number("full to least", ["dial", "range"], dial.range, ["stops", 1, 1])}
      {number("dial's step", ["dial", "step"], dial.step, ["stops", 2, 0.1])}
      <MaybeNumber
        {...{ put }}
        label="ready again after"
        of={name}
        path={[...path, "recycle"]}
        value={recycle}
        unit="s"
      />
      <EntryField
        label="flash lasts"
        of={name}
        text={timeText(duration?.seconds ?? null)}
        parse={parseTime}
        commit={(seconds) =>
          put(`${name} flash`, [...path, "duration"], seconds === null ? null : { ...duration, seconds })
        }
        note="at full power"
      />
      {duration !== null && <FlashTold {...{ put, name, path }} measured={duration.measured} />}
      <HeadEntry {...{ shelf, put, units, piece, path }} />
      {number("modelling lamp", ["lampWatts"], lampWatts, ["W", 0, 10])}
      <StoredShare {...{ put }} of={name} path={[...path, "charging"]} share={charging} />
      {number("colour", ["kelvin"], kelvin, ["K", 0, 100])}
      <Fold word="bare" of={name} sums={`${frontWords(bare.face, units)}, ${angleText(bare.beam.exponent)}`}>
        <FaceParts {...{ put, units }} {...bare} name={`bare ${name}`} path={[...path, "bare"]} />
      </Fold>
    </>
  );
}

/** What goes on a head. */
export function ModifierParts({ shelf, put, units, piece, path }: PieceProps<"modifiers">) {
  const { beam, face, loss, name } = piece;
  return (
    <>
      <FaceParts {...{ put, units, name, face, beam, path }} />
      <BriefNumber
        {...{ put }}
        label="takes away"
        of={name}
        path={[...path, "loss", "stops"]}
        value={loss.stops}
        unit="stops"
        digits={2}
        stepBy={0.1}
      />
      <ChoiceField
        label="that is"
        of={`${name}, what it takes away`}
        value={loss.from}
        choices={[
          ["typical", "typical of its kind"],
          ["measured", "measured"],
        ]}
        choose={(from) => put(`${name} ${from}`, [...path, "loss", "from"], from)}
      />
      <LossEntry {...{ shelf, put, units, piece, path }} />
    </>
  );
}
