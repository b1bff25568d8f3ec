/** The documents of one shoot in an archive, checked before anything is believed of them. */
import { createHash } from "node:crypto";
import { parsePlan } from "../plan/index.ts";
import {
  type ArchivedFrames,
  type ArchivedShoot,
  type Checked,
  checkFrames,
  checkShoot,
} from "../shoots/index.ts";
import type { PhotoReading } from "../testframe/index.ts";
import { WorkError } from "../workbench/index.ts";
import type { ZipEntries } from "./zip-read.ts";

const MEBI = 1024 * 1024;
const MOST_DOCUMENT = 128 * MEBI;
const MOST_TEXT = 32 * MEBI;
const MOST_THUMBNAIL = MEBI;
const SHOWN_PROBLEMS = 3;

/** What identifies the content of a shoot, however it was packed: the same documents, the same number. */
export interface Content {
  add(name: string, bytes: Uint8Array): void;
  digest(): string;
}

export function createContent(): Content {
  const lines: string[] = [];
  return {
    add: (name, bytes) => void lines.push(`${createHash("sha256").update(bytes).digest("hex")} ${name}`),
    digest: () => createHash("sha256").update(lines.sort().join("\n")).digest("hex"),
  };
}

/** A reader of one folder of an archive. Every document that is read counts in `content`. */
export interface ShootDocuments {
  readonly about: ArchivedShoot;
  readonly frames: ArchivedFrames["frames"];
  readonly content: Content;
  /** a plan as it is kept: compact, every number as it was */
  plan(file: string): Promise<{ readonly value: unknown; readonly text: string }>;
  /** an undo history, compact */
  json(file: string): Promise<string>;
  reading(file: string): Promise<PhotoReading>;
  thumbnail(file: string): Promise<Uint8Array>;
}

/** Errors  WorkError naming the file in the archive, where in it, what is wrong and the cure */
export async function openDocuments(
  zip: ZipEntries,
  called: string,
  folder: string,
): Promise<ShootDocuments> {
  const content = createContent();
  const refuse = (file: string, problems: readonly string[]) =>
    documentProblem(called, `${folder}${file}`, problems);
  const bytesOf = async (file: string, most: number) => {
    const bytes = await zip.bytes(`${folder}${file}`, most);
    content.add(file, bytes);
    return bytes;
  };
  const parsedOf = async (file: string, most: number): Promise<unknown> => {
    const text = (await bytesOf(file, most)).toString("utf8");
    try {
      return JSON.parse(text);
    } catch (error) {
      throw refuse(file, [
        `is not JSON (${error instanceof Error ? error.message.slice(0, 100) : "damaged"})`,
      ]);
    }
  };
  const compact = (file: string, value: unknown) => {
    try {
      return JSON.stringify(value);
    } catch {
      throw refuse(file, ["has brackets nested too deep"]);
    }
  };
  const demand = <T>(file: string, checked: Checked<T>): T => {
    if (!checked.ok) throw refuse(file, checked.problems);
    return checked.value;
  };
  const about = demand("shoot.json", checkShoot(await parsedOf("shoot.json", MOST_DOCUMENT)));
  const { frames } = demand("frames.json", checkFrames(await parsedOf("frames.json", MOST_DOCUMENT)));
  const problems = [...ofShoot(about), ...ofFrames(about, frames, (file) => zip.size(`${folder}${file}`))];
  if (problems.length > 0) throw refuse("shoot.json", problems);
  const missing = filesOf(about, frames).find((file) => !zip.has(`${folder}${file}`));
  if (missing !== undefined) throw refuse(missing, ["is not in it"]);
  return {
    about,
    frames,
    content,
    async plan(file) {
      const text = (await bytesOf(file, MOST_TEXT)).toString("utf8");
      const parsed = parsePlan(text);
      if (!parsed.ok)
        throw refuse(
          file,
          parsed.problems.map(({ path, what }) => `${path}: ${what}`),
        );
      const value: unknown = JSON.parse(text.replace(/^\ufeff/, ""));
      return { value, text: JSON.stringify(value) };
    },
    json: async (file) => compact(file, await parsedOf(file, MOST_TEXT)),
    async reading(file) {
      const value = await parsedOf(file, MOST_TEXT);
      if (!isReading(value)) throw refuse(file, ["is not what is read off a photograph"]);
      compact(file, value);
      return value;
    },
    async thumbnail(file) {
      const bytes = await bytesOf(file, MOST_THUMBNAIL);
      if (!(bytes[0] === 0xff && bytes[1] === 0xd8 && bytes[2] === 0xff)) throw refuse(file, ["is no JPEG"]);
      return bytes;
    },
  };
}

export function documentProblem(called: string, file: string, problems: readonly string[]): WorkError {
  const more = problems.length - SHOWN_PROBLEMS;
  const shown = problems.slice(0, SHOWN_PROBLEMS).map((problem) => `${file}: ${problem}`);
  const all = more > 0 ? [...shown, `and ${more} more`] : shown;
  return new WorkError(
    `the archive ${called} is not taken in: ${all.join("; ")}`,
    "nothing was changed; export it again, or correct it",
  );
}

function filesOf(about: ArchivedShoot, frames: ArchivedFrames["frames"]): string[] {
  return [
    ...about.plans.flatMap(({ file, history, versions }) => [file, history, ...versions.map((v) => v.file)]),
    ...frames.flatMap(({ reading, thumbnail, photograph }) =>
      [reading, thumbnail, photograph].filter((file) => file !== null),
    ),
  ];
}

/** What has to be there once is there once. */
function ofShoot({ plans }: ArchivedShoot): string[] {
  const versions = plans.flatMap((plan) => plan.versions);
  return [
    ...twice(
      "plans",
      "key",
      plans.map(({ key }) => key),
    ),
    ...twice(
      "versions",
      "id",
      versions.map(({ id }) => id),
    ),
    ...plans.flatMap(({ key, placed, versions }) => [
      ...twice(
        `plan ${key}`,
        "number of versions",
        versions.map(({ number }) => String(number)),
      ),
      ...twice(
        `plan ${key}`,
        "thing that is placed",
        placed.map(({ thing }) => thing),
      ),
    ]),
  ];
}

function ofFrames(
  { plans }: ArchivedShoot,
  frames: ArchivedFrames["frames"],
  sizeOf: (file: string) => number,
): string[] {
  const versions = new Map(
    plans.flatMap(({ key, versions }) => versions.map(({ id }) => [id, key] as const)),
  );
  const keys = new Set(plans.map(({ key }) => key));
  return [
    ...twice(
      "frames",
      "id",
      frames.map(({ id }) => id),
    ),
    ...twice(
      "frames",
      "photograph",
      frames.flatMap(({ photograph }) => photograph ?? []),
    ),
    ...frames.flatMap(({ key, version, photograph, bytes }, i) => [
      ...(key !== null && !keys.has(key) ? [`frames[${i}].key: there is no plan ${key}`] : []),
      ...(version !== null && versions.get(version) !== key
        ? [`frames[${i}].version: the plan has no version ${version}`]
        : []),
      ...(photograph !== null && bytes !== null && sizeOf(photograph) !== bytes
        ? [`frames[${i}].bytes: ${photograph} has ${sizeOf(photograph)}, not ${bytes}`]
        : []),
    ]),
  ];
}

function twice(where: string, what: string, values: readonly string[]): string[] {
  const seen = new Set<string>();
  for (const value of values) {
    if (seen.has(value)) return [`${where}: two have the ${what} ${value.slice(0, 80)}`];
    seen.add(value);
  }
  return [];
}

/** As far as whoever shows it relies on. */
function isReading(value: unknown): value is PhotoReading {
  const { image, faces, warnings } = (value ?? {}) as Record<string, unknown>;
  const { name, width, height, exif } = (image ?? {}) as Record<string, unknown>;
  return (
    typeof name === "string" &&
    typeof width === "number" &&
    typeof height === "number" &&
    typeof exif === "object" &&
    exif !== null &&
    Array.isArray(faces) &&
    Array.isArray(warnings)
  );
}
