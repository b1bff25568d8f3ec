/** A frame beside the plan that it was taken by: line by line, in the trade's units. What is asked of a line to be "as
 * planned" is what a person would notice, or, where that is more, what the frame is known to. */
import { clockWords, patternName, patternWord, type TryReading } from "../reading/index.ts";
import { likelyCauses } from "./causes.ts";
import { type ComparedFrame, observedOf } from "./compare-observed.ts";
import { type PlannedFace, plannedFace } from "./compare-planned.ts";
import { cannotTell, UNSURE } from "./compare-words.ts";
import type { ComparedLine, FrameComparison, PhotoFace, PhotoReading } from "./types.ts";

/** What of the plan the frame keeps, what differs and by how much, and why that may be. */
export function compareFrame(frame: ComparedFrame): FrameComparison {
  const { plan, person, photo } = frame;
  const face = photo.faces[frame.face];
  const reading = frame.read(plan);
  const planned = plannedFace(plan, person, reading);
  const observed = observedOf(frame, reading, planned);
  const lines = [
    ...observed.lines,
    patternLine(reading, face),
    sideLine(reading, face),
    framingLine(planned, photo, face),
    catchlightLine(reading, face),
  ].sort((a, b) => ORDER.indexOf(a.what) - ORDER.indexOf(b.what));
  return {
    summary: summaryOf(lines),
    lines,
    causes: likelyCauses(frame, reading, planned, observed),
  };
}

const ORDER: readonly ComparedLine["what"][] = [
  "exposure",
  "ratio",
  "direction",
  "pattern",
  "side",
  "background",
  "framing",
  "catchlights",
];

function patternLine(reading: TryReading, face: PhotoFace): ComparedLine {
  const planned = patternName(reading.pattern);
  if (face.pattern === null) return cannotTell("pattern", planned);
  const names = [face.pattern, face.between];
  const same =
    names.includes(reading.pattern) || (reading.between !== null && names.includes(reading.between));
  return {
    what: "pattern",
    planned,
    seen: patternName(face.pattern),
    difference: same ? "" : `${patternWord(face.pattern)} in place of ${patternWord(reading.pattern)}`,
    amount: null,
    state: same ? "as planned" : "differs",
  };
}

/** Nose within so much of the lens: neither broad nor short (plan format). */
const SQUARE_DEGREES = 10;

function sideOf({ head, litSide }: PhotoFace): TryReading["side"] | null {
  if (litSide === null) return null;
  if (Math.abs(head.turn) <= SQUARE_DEGREES || litSide === "even") return "square";
  return head.turn < 0 === (litSide === "left") ? "broad" : "short";
}

function sideLine(reading: TryReading, face: PhotoFace): ComparedLine {
  const words = (lit: TryReading["litSide"], side: TryReading["side"]) =>
    `${lit === "even" ? "both alike" : `own ${lit} lit`}${side === "square" ? "" : `, ${side}`}`;
  const planned = words(reading.litSide, reading.side);
  const side = sideOf(face);
  if (face.litSide === null || side === null) return cannotTell("side", planned);
  // cheeks that are nearly alike, or a nose near its limit, are no other side
  const same =
    (face.litSide === reading.litSide || face.litSide === "even" || reading.litSide === "even") &&
    (side === reading.side || side === "square" || reading.side === "square");
  const seen = words(face.litSide, side);
  return {
    what: "side",
    planned,
    seen,
    difference: same ? "" : seen,
    amount: null,
    state: same ? "as planned" : "differs",
  };
}

/** A face that lies or is larger by less than this share of its own height is framed as planned. */
const NOTICED_SHIFT = 0.1;

function framingLine(planned: PlannedFace, { image }: PhotoReading, { box }: PhotoFace): ComparedLine {
  const percent = (x: number) => `${Math.round(100 * x)} %`;
  const words = (place: NonNullable<PlannedFace["place"]>) =>
    `face ${percent(place.size)} of the height, ${percent(place.x)} across, ${percent(place.y)} down`;
  if (planned.place === null) return cannotTell("framing", "face behind the camera");
  const seen = {
    x: (box.left + box.width / 2) / image.width,
    y: (box.top + box.height / 2) / image.height,
    size: box.height / image.height,
  };
  const size = seen.size / planned.place.size - 1;
  const right = ((seen.x - planned.place.x) * image.width) / box.height;
  const down = ((seen.y - planned.place.y) * image.height) / box.height;
  const parts = [
    Math.abs(size) > NOTICED_SHIFT ? `${percent(Math.abs(size))} ${size > 0 ? "larger" : "smaller"}` : "",
    Math.abs(right) > NOTICED_SHIFT ? `to picture ${right > 0 ? "right" : "left"}` : "",
    Math.abs(down) > NOTICED_SHIFT ? (down > 0 ? "lower" : "higher") : "",
  ].filter((part) => part !== "");
  return {
    what: "framing",
    planned: words(planned.place),
    seen: words(seen),
    difference: parts.join(", "),
    amount: size,
    state: parts.length === 0 ? "as planned" : "differs",
  };
}

/** As finely as a catchlight's place is told. */
const CLOCK_HOURS = 0.5;

function catchlightLine(reading: TryReading, face: PhotoFace): ComparedLine {
  const clocks = (list: readonly { readonly clock: number }[]) =>
    list.length === 0 ? "none" : [...new Set(list.map((c) => clockWords(c.clock)))].join(", ");
  const planned = clocks(reading.catchlights);
  if (face.catchlights.length === 0) return cannotTell("catchlights", planned);
  const off = face.catchlights.map(({ eye, clock }) => nearestHours(reading, eye, clock));
  const worst = Math.max(...off);
  const same = worst <= CLOCK_HOURS;
  return {
    what: "catchlights",
    planned,
    seen: clocks(face.catchlights),
    difference: same
      ? ""
      : Number.isFinite(worst)
        ? `${worst.toFixed(1)} hours round`
        : "one that is not planned",
    amount: Number.isFinite(worst) ? worst : null,
    state: same ? "as planned" : "differs",
  };
}

function nearestHours(reading: TryReading, eye: "left" | "right", clock: number): number {
  const hours = reading.catchlights
    .filter((c) => c.eye === eye)
    .map((c) => Math.abs(((((clock - c.clock) % 12) + 18) % 12) - 6));
  return Math.min(...hours, Number.POSITIVE_INFINITY);
}

/** "as planned"; "as planned, as far as this frame tells: the ratio 0.2 stop lower"; "not as planned: …". */
function summaryOf(lines: readonly ComparedLine[]): string {
  const differs = lines.filter((line) => line.state === "differs");
  if (differs.length > 0) return `not as planned: ${differs.map(told).join("; ")}`;
  const slight = lines.filter((line) => line.difference !== "");
  const known = lines.some((line) => line.state === "as planned");
  if (!known) return "cannot tell: too little of the light is seen in this frame";
  if (slight.length === 0) return "as planned";
  const parts = slight.map(({ what, difference }) => `${NAMES[what]} ${difference.replace(UNSURE, "")}`);
  return `as planned, as far as this frame tells: ${parts.join("; ")}`;
}

const NAMES: Readonly<Record<ComparedLine["what"], string>> = {
  exposure: "the face",
  ratio: "the ratio",
  direction: "the light",
  pattern: "the pattern",
  side: "the side",
  background: "the background",
  framing: "the face",
  catchlights: "the catchlight",
};

function told({ what, difference }: ComparedLine): string {
  return `${NAMES[what]} is ${difference}`;
}
