/** What is inside an archive of a shoot: its documents, and whether a document is one of them. */
import { z } from "zod";
import { endingOf, PICTURE_ENDINGS, RAW_ENDINGS } from "../testframe/index.ts";
import { isSafeName } from "./archive-names.ts";

export const SHOOT_FORMAT = "tapemark/shoot";
export const FRAMES_FORMAT = "tapemark/frames";
export const LIBRARY_FORMAT = "tapemark/library";
export const ARCHIVE_VERSION = 1;

const text = (most: number) => z.string().max(most, { error: `must have at most ${most} characters` });
const id = z.string().regex(/^[\w.:-]{1,100}$/, { error: "must be 1 to 100 letters, digits, -, _, . or :" });
const key = z.string().regex(/^[a-z0-9-]{1,64}$/, { error: "must be 1 to 64 small letters, digits or -" });
const moment = z.string().regex(/^\d{4}-\d\d-\d\dT[\d:.]{5,20}(Z|[+-]\d\d:\d\d)?$/, {
  error: "must be a time as 2026-11-26T10:00:00Z",
});
const day = z.string().regex(/^\d{4}-\d\d-\d\d$/, { error: "must be a day as 2026-11-26" });
const whole = z.int().min(0);
const place = (folder: string, ending: string) =>
  z.string().refine((name) => isSafeName(name) && name.startsWith(`${folder}/`) && name.endsWith(ending), {
    error: `must name a file ${folder}/…${ending}`,
  });
const photograph = z
  .string()
  .refine((name) => isSafeName(name) && /^frames\/[^/.][^/]*$/.test(name) && photographEnding(name) !== "", {
    error: "must name a photograph frames/…, by an ending of photographs",
  });

const version = z.strictObject({
  id,
  number: whole.min(1),
  name: text(1000),
  madeAt: moment,
  isAutomatic: z.boolean(),
  file: place("versions", ".json"),
});

const plan = z.strictObject({
  key,
  title: text(1000),
  savedAt: moment,
  revision: whole,
  by: text(1000).nullable(),
  /** what the workbench read of it last, for the search */
  readPattern: text(200).nullable(),
  file: place("plans", ".json"),
  history: place("plans", ".history.json"),
  placed: z
    .array(z.strictObject({ thing: text(1000), by: text(1000), at: moment, setUp: text(100) }))
    .max(10_000),
  versions: z.array(version).max(10_000),
});

const shoot = z.strictObject({
  format: z.literal(SHOOT_FORMAT),
  version: z.literal(ARCHIVE_VERSION),
  shoot: z.strictObject({
    id,
    title: text(10_000),
    date: day.nullable(),
    place: text(10_000),
    client: text(10_000),
    notes: text(1_000_000),
    isPutAway: z.boolean(),
    createdAt: moment,
    changedAt: moment,
    revision: whole,
  }),
  plans: z.array(plan).max(10_000),
});

const frame = z.strictObject({
  id,
  key: key.nullable(),
  version: id.nullable(),
  name: text(1000),
  bytes: whole.nullable(),
  takenAt: text(100).nullable(),
  arrivedAt: moment,
  width: whole.min(1),
  height: whole.min(1),
  pattern: text(200).nullable(),
  ratioStops: z.number().nullable(),
  clippedSkin: z.number().nullable(),
  stars: z.int().min(0).max(5),
  isSelect: z.boolean(),
  /** what was read off it */
  reading: place("read", ".json"),
  thumbnail: place("thumbnails", ".jpg").nullable(),
  /** null: the photograph was not there when the archive was made */
  photograph: photograph.nullable(),
});

const frames = z.strictObject({
  format: z.literal(FRAMES_FORMAT),
  version: z.literal(ARCHIVE_VERSION),
  frames: z.array(frame).max(200_000),
});

const library = z.strictObject({
  format: z.literal(LIBRARY_FORMAT),
  version: z.literal(ARCHIVE_VERSION),
  /** one folder a shoot */
  shoots: z.array(place("shoots", "")).max(100_000),
});

export type ArchivedShoot = z.output<typeof shoot>;
export type ArchivedPlan = z.output<typeof plan>;
export type ArchivedFrames = z.output<typeof frames>;
export type ArchivedFrame = z.output<typeof frame>;
type ArchivedLibrary = z.output<typeof library>;

/** A document that is well formed, or what is wrong with it: "plans[0].key: must be …". */
export type Checked<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problems: string[] };

export const checkShoot = (value: unknown): Checked<ArchivedShoot> => checked(shoot, value);
export const checkFrames = (value: unknown): Checked<ArchivedFrames> => checked(frames, value);
export const checkLibrary = (value: unknown): Checked<ArchivedLibrary> => checked(library, value);

function checked<T>(form: z.ZodType<T>, value: unknown): Checked<T> {
  const newer = versionOf(value);
  if (newer !== null && newer > ARCHIVE_VERSION)
    return { ok: false, problems: [`version: was made by a newer Tapemark (${newer}); update Tapemark`] };
  const result = form.safeParse(value);
  if (result.success) return { ok: true, value: result.data };
  const problems = result.error.issues.map(({ path, message }) => {
    const where = path.reduce<string>(
      (at, step) =>
        typeof step === "number" ? `${at}[${step}]` : at ? `${at}.${String(step)}` : String(step),
      "",
    );
    return where ? `${where}: ${message}` : message;
  });
  return { ok: false, problems };
}

function versionOf(value: unknown): number | null {
  const version = (value as { version?: unknown } | null)?.version;
  return typeof version === "number" && Number.isInteger(version) ? version : null;
}

const ENDINGS = new Set([...PICTURE_ENDINGS, ...RAW_ENDINGS]);

/** ".jpg" of "IMG_1.JPG"; nothing where it is no photograph by its name. */
export function photographEnding(name: string): string {
  const ending = endingOf(name);
  return ENDINGS.has(ending) ? `.${ending}` : "";
}

/** Documents are written so that people can read them, and numbers as exactly as they are kept. */
export function documentText(value: unknown): string {
  return `${JSON.stringify(value, null, 2)}\n`;
}
