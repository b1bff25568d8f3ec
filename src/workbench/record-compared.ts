/** A photograph beside the plan, line by line: first what the camera was set to, then each face of the plan's people. */
import type { Plan } from "../plan/index.ts";
import { exposureWords, type RecordLine } from "../sheet/index.ts";
import { planChanges } from "../shoots/index.ts";
import { type ComparedLine, exifLine, matchFaces, type PhotoReading } from "../testframe/index.ts";
import type { LengthUnits } from "../units/index.ts";
import type { Finder, WorkOptions } from "./ports.ts";

export async function comparedLines(
  finder: Finder,
  plan: Plan,
  photo: PhotoReading,
  units: LengthUnits,
  work: WorkOptions | undefined,
): Promise<RecordLine[]> {
  const lines = cameraLines(plan, photo, units);
  for (const { person, face } of matchFaces(plan, photo)) {
    const { lines: told } = await finder.compare(plan, { person, photo, face }, work);
    const whose = plan.people.length > 1 ? plan.people[person].name : "";
    // of many faces only what differs: the page has to be read
    const shown = plan.people.length > MOST_WHOLE ? told.filter(({ state }) => state === "differs") : told;
    lines.push(...shown.map((line) => lineOf(line, whose)));
  }
  return lines;
}

/** Faces that are told with everything that is as planned. */
const MOST_WHOLE = 2;

const PART: Readonly<Record<ComparedLine["what"], RecordLine["part"]>> = {
  direction: "direction",
  pattern: "direction",
  side: "direction",
  catchlights: "direction",
  exposure: "power",
  ratio: "power",
  background: "power",
  framing: "camera",
};

function lineOf({ what, planned, seen, difference, state }: ComparedLine, whose: string): RecordLine {
  return {
    ...{ whose, what: what === "direction" ? "light from" : what, part: PART[what], planned, taken: seen },
    difference: state === "differs" ? difference : state,
  };
}

/** How a photograph was exposed, written as the sheets write the plan's exposure: f/8 is not f/8 + 0.0 beside it. */
export function takenWords(exif: PhotoReading["image"]["exif"]): string | null {
  return exifLine(exif)?.replace(" + 0.0", "") ?? null;
}

/** Engraved numbers are rounded: 1/60 stands for 1/64, f/5.6 for f/5.657. Stops. */
const ENGRAVED = 0.1;
/** A zoom writes whole millimetres. */
const LENS_mm = 1;

/** One line where all is as planned, else one for each setting that is not; none where the file does not say. */
function cameraLines(plan: Plan, { image: { exif } }: PhotoReading, units: LengthUnits): RecordLine[] {
  const taken = takenWords(exif);
  if (taken === null) return [];
  const { camera } = plan;
  const stops = (a: number | null, b: number, each: number) =>
    a === null || Math.abs(each * Math.log2(a / b)) < ENGRAVED ? b : a;
  const lens = exif.focalLength;
  const set: Plan = {
    ...plan,
    camera: {
      ...camera,
      fNumber: stops(exif.fNumber, camera.fNumber, 2),
      shutter: stops(exif.shutter, camera.shutter, 1),
      iso: stops(exif.iso, camera.iso, 1),
      focalLength: lens === null || Math.abs(lens - camera.focalLength) < LENS_mm ? camera.focalLength : lens,
    },
  };
  const common = { whose: "", part: "camera" } as const;
  const changes = planChanges(plan, set, units);
  if (changes.length === 0)
    return [{ ...common, what: "set to", planned: exposureWords(camera), taken, difference: "as planned" }];
  return changes.map(({ which, before, after, change }) => ({
    ...common,
    ...{ what: which, planned: before, taken: after, difference: change },
  }));
}
