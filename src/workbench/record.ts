/** The record of a shoot: plan, set and photographs beside each other, as pages to keep. */
import { isTold, stopsWords } from "../finder/index.ts";
import { ALL_LIGHTS, type Plan, placeOf, type Reading } from "../plan/index.ts";
import {
  exposureWords,
  heldWords,
  measurePlaces,
  meterWords,
  type RecordChange,
  type RecordFrame,
  type RecordGiven,
  type RecordOptions,
  type RecordReading,
  recordSheet,
} from "../sheet/index.ts";
import {
  factsOfFrame,
  type PlanChange,
  partOfChange,
  planChanges,
  type ShootFields,
} from "../shoots/index.ts";
import { type PhotoReading, stopsText } from "../testframe/index.ts";
import { formatFStops, type LengthUnits } from "../units/index.ts";
import type { Computer, Finder, WorkOptions } from "./ports.ts";
import { comparedLines, takenWords } from "./record-compared.ts";
import { shareOf } from "./share-of.ts";
import { base64, sheetPicture } from "./sheet.ts";

/** A photograph that goes on a record. */
export interface RecordPhoto {
  readonly name: string;
  readonly stars: number;
  readonly isSelect: boolean;
  readonly photo: PhotoReading;
  /** JPEG; null where none is kept */
  readonly thumbnail: Uint8Array | null;
}

/** What is on record beside the plan as it was set for the pick. */
export interface OnRecord {
  /** the plan before the shoot, and what that state is called; null where none is kept */
  readonly planned: { readonly plan: Plan; readonly name: string } | null;
  /** who, when and where; null where nothing was said */
  readonly shoot: Pick<ShootFields, "title" | "date" | "place" | "client" | "notes"> | null;
  /** the pick first */
  readonly photos: readonly RecordPhoto[];
  /** printed as it is given, where no shoot says its day */
  readonly date?: string;
}

/** Enough for 68 mm at 150 pixels an inch. */
const FRAME_WIDTH = 400;
/** Reading, frame, meter readings, the pick. */
const STEPS = 4;
/** What fits beside the pick without another page of pictures. */
const MOST_PHOTOS = 9;

/** The record's pages as SVG.
 * Shape    plan: as it was set, with the readings made
 * Errors   as the computer's: stopped, where it was asked to */
export async function makeRecord(
  computer: Computer & Finder,
  plan: Plan,
  on: OnRecord,
  options: RecordOptions,
  work?: WorkOptions,
): Promise<string[]> {
  const part = (step: number, what: string) => shareOf(work, step, STEPS, what);
  const reading = await computer.read(plan, "fine", part(0, "reading"));
  const request = { width: FRAME_WIDTH, quality: "fine" } as const;
  const frame = await computer.frame(plan, request, part(1, "tracing the frame"));
  const readings = await readingsOf(computer, plan, options.units, part(2, "tracing what the meter saw"));
  const [pick] = on.photos;
  const compared =
    pick === undefined
      ? []
      : await comparedLines(computer, plan, pick.photo, options.units, part(3, "comparing the pick"));
  const given: RecordGiven = {
    title: titleOf(plan, on),
    about: aboutOf(plan, on),
    notes: on.shoot?.notes ?? "",
    picture: sheetPicture(frame),
    exposure: exposureWords(plan.camera),
    frames: on.photos.slice(0, MOST_PHOTOS).map((photo, i) => frameOf(photo, i === 0 ? compared : [])),
    readings,
    plannedAs: on.planned?.name ?? null,
    changes: on.planned === null ? [] : changesOf(on.planned.plan, plan, options.units),
  };
  return recordSheet(plan, reading, given, options);
}

function titleOf(plan: Plan, { shoot }: OnRecord): string {
  const title = shoot?.title.trim() ?? "";
  return title === "" || title === plan.title ? plan.title : `${title}: ${plan.title}`;
}

function aboutOf({ people }: Plan, { shoot, date }: OnRecord): string[] {
  const day = shoot?.date ?? date ?? "";
  const who = people.map(({ name }) => name).join(", ");
  const client = shoot === null || shoot.client.trim() === "" ? "" : `for ${shoot.client.trim()}`;
  return [day, shoot?.place.trim() ?? "", client, who].filter((words) => words !== "");
}

function frameOf(
  { name, photo, stars, isSelect, thumbnail }: RecordPhoto,
  compared: RecordFrame["compared"],
) {
  const { exif, width, height } = photo.image;
  return {
    name,
    when: exif.takenAt?.replace("T", " ").slice(0, 19) ?? "",
    marks: [stars === 0 ? "" : `${stars} ${stars === 1 ? "star" : "stars"}`, isSelect ? "select" : ""]
      .filter((words) => words !== "")
      .join(", "),
    exposure: takenWords(exif),
    light: lightOf(photo),
    picture:
      thumbnail === null ? null : { data: `data:image/jpeg;base64,${base64(thumbnail)}`, width, height },
    compared,
  };
}

/** "Rembrandt, 2.1 stops"; "" where no face was read */
function lightOf(photo: PhotoReading): string {
  const { pattern, ratioStops } = factsOfFrame(photo);
  return [pattern, ratioStops === null ? null : stopsText(ratioStops)]
    .filter((each) => each !== null)
    .join(", ");
}

/** Each reading beside what the plan says of it. */
async function readingsOf(
  computer: Finder,
  plan: Plan,
  units: LengthUnits,
  work: WorkOptions | undefined,
): Promise<RecordReading[]> {
  if (plan.readings.length === 0) return [];
  const { readings: checked } = await computer.calibrate(plan, { frames: [] }, work);
  return plan.readings.map((made) => {
    const check = checked.find(({ kind, name }) => kind === "reading" && name === made.name);
    const off = check?.offBefore ?? null;
    return {
      name: made.name,
      of: made.light === ALL_LIGHTS ? "all on" : `${made.light} alone`,
      where: whereWords(plan, made, units),
      planned: off === null ? null : formatFStops(made.fNumber * 2 ** (-off / 2)),
      read: formatFStops(made.fNumber),
      difference: [
        off === null ? "cannot tell" : isTold(off) ? stopsWords(off) : "as planned",
        ...(check === undefined || check.state === "used" ? [] : [check.state]),
      ].join(", "),
      note: [made.iso === plan.camera.iso ? "" : `ISO ${Math.round(made.iso)}`, made.note]
        .filter((words) => words !== "")
        .join("; "),
    };
  });
}

/** "dome, pointed at key; 1.50 m high, 0.03 m from the nose", said as of a meter of the plan that is held there. */
function whereWords(plan: Plan, reading: Reading, units: LengthUnits): string {
  const held = { ...plan, meters: [{ name: reading.name, pinned: false, ...placeOf(plan, reading) }] };
  const { noses } = measurePlaces(plan);
  return `${meterWords(held, 0, noses)}; ${heldWords(held, 0, noses, units)}`;
}

/** What was metered is told by itself, and a plan's own title and brief are no part of the set. */
const ELSEWHERE = new Set(["plan", "brief", "picture", "readings"]);

function changesOf(planned: Plan, set: Plan, units: LengthUnits): RecordChange[] {
  return planChanges({ ...planned, readings: [] }, { ...set, readings: [] }, units)
    .filter(({ what }) => !ELSEWHERE.has(what))
    .map((change) => ({
      ...{ what: change.what, which: change.which, change: change.change },
      ...{ planned: change.before, set: change.after, part: partOf(change) },
    }));
}

function partOf(change: PlanChange): RecordChange["part"] {
  const part = partOfChange(change);
  return change.what === "camera" && part !== "direction" ? "camera" : part;
}
