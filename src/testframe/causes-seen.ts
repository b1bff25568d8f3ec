/** Causes that the frame itself proves. */
import type { Plan } from "../plan/index.ts";
import type { ComparedFrame, Observed } from "./compare-observed.ts";
import type { PlannedFace } from "./compare-planned.ts";
import { stopsWords } from "./compare-words.ts";
import type { LikelyCause } from "./types.ts";

/** Shutters up to here give any flash the whole frame (common practice, no source). */
const SAFE_SHUTTER = "1/125";

export function bandCause({ photo }: ComparedFrame): LikelyCause | null {
  const { band, exif } = photo.image;
  if (band === null) return null;
  const shutter = exif.shutter === null ? "" : ` at ${shutterWords(exif.shutter)}`;
  return {
    cause: "sync",
    why: `a band along the ${band.edge}, ${Math.round(100 * band.share)} % of the frame, is ${stopsWords(band.stops)} darker right across: the shutter${shutter} was not wide open while the flash fired`,
    check: `the same frame at ${SAFE_SHUTTER} s: the band goes`,
    cure: `shutter to ${SAFE_SHUTTER} s or longer; more power does not help`,
    weight: 1,
  };
}

export function shutterWords(seconds: number): string {
  return seconds < 0.3 ? `1/${Math.round(1 / seconds)} s` : `${Number(seconds.toFixed(1))} s`;
}

/** Settings that move the frame by less are not worth a word. */
const TOLD_STOPS = 0.1;

export function settingsCause({ plan, photo }: ComparedFrame, observed: Observed): LikelyCause | null {
  const { settingsStops } = observed;
  if (Math.abs(settingsStops) < TOLD_STOPS) return null;
  const { fNumber, iso } = photo.image.exif;
  const parts = [
    fNumber !== null && Math.abs(2 * Math.log2(plan.camera.fNumber / fNumber)) >= TOLD_STOPS ? "lens" : "",
    iso !== null && Math.abs(Math.log2(iso / plan.camera.iso)) >= TOLD_STOPS ? "ISO" : "",
  ].filter((part) => part !== "");
  return {
    cause: "settings",
    why: `${parts.join(" and ")} ${parts.length > 1 ? "are" : "is"} set ${stopsWords(settingsStops)} ${settingsStops > 0 ? "brighter" : "darker"} than planned, as the file tells`,
    check: "read lens and ISO off the camera",
    cure: `set the camera as planned, or take the frame's setting into the plan`,
    weight: 1,
  };
}

/** A head is held otherwise if it is off by more than a landmark model may be. */
const TURN_DEGREES = 8;

export interface TurnedHead {
  readonly turn: number;
  readonly tip: number;
}

/** Null where it is held as planned. */
export function turnedHead(frame: ComparedFrame, planned: PlannedFace): TurnedHead | null {
  const { head } = frame.photo.faces[frame.face];
  const turn = head.turn - planned.head.turn;
  const tip = head.tip - planned.head.tip;
  return Math.max(Math.abs(turn), Math.abs(tip)) < TURN_DEGREES ? null : { turn, tip };
}

export function withHead({ plan, person }: ComparedFrame, { turn, tip }: TurnedHead): Plan {
  return {
    ...plan,
    people: plan.people.map((each, i) =>
      i === person
        ? { ...each, head: { ...each.head, turn: each.head.turn + turn, tip: each.head.tip + tip } }
        : each,
    ),
  };
}

export function headCause({ turn, tip }: TurnedHead): LikelyCause {
  const moves = (a: number, b: number) =>
    [
      Math.abs(a) >= TURN_DEGREES ? `${Math.round(Math.abs(a))}° to own ${a > 0 ? "left" : "right"}` : "",
      Math.abs(b) >= TURN_DEGREES ? `chin ${b > 0 ? "up" : "down"} ${Math.round(Math.abs(b))}°` : "",
    ]
      .filter((part) => part !== "")
      .join(", ");
  return {
    cause: "turned head",
    why: `against the lens the head is turned ${moves(turn, tip)} more than planned`,
    check: "look at the nose against the lens",
    cure: `head ${moves(-turn, -tip)}`,
    weight: 1,
  };
}
