/** The whole reader on frames of known light: from a file's bytes to what is told of the face. */
import { encode } from "fast-png";
import { openFaceNets } from "../src/files/face-models.ts";
import { decodePhotograph } from "../src/files/index.ts";
import { type FaceFinder, makeFaceFinder, readPhotograph } from "../src/testframe/index.ts";
import { type TruthFrame, type TruthOptions, truthFrame } from "./photo-truth.ts";
import { type Outcome, outcomeOf } from "./photo-truth-score.ts";

/** As a file without a profile, so that the standard's curve is all that a reader can go by. */
export function pngOf({ picture: { width, height }, levels }: TruthFrame): Uint8Array {
  return encode({ width, height, data: levels, channels: 3, depth: 8 });
}

/** A finder that knows where the face is: what is left is the reading of light. */
export function knowing({ trueFace }: TruthFrame): FaceFinder {
  return { find: async () => [trueFace] };
}

/** The one that ships. */
export async function openFinder(): Promise<FaceFinder> {
  return makeFaceFinder(await openFaceNets("."));
}

/** `finder` null: the true landmarks serve. */
export async function readTruth(frame: TruthFrame, finder: FaceFinder | null): Promise<Outcome> {
  const photo = await decodePhotograph("frame.png", pngOf(frame));
  const { faces } = await readPhotograph(photo, finder ?? knowing(frame));
  return outcomeOf(frame, faces[0] ?? null);
}

/** One after the other: the same whatever else runs. */
export async function readSet(
  indices: readonly number[],
  options: TruthOptions,
  finder: FaceFinder | null,
): Promise<Outcome[]> {
  const out: Outcome[] = [];
  for (const index of indices) out.push(await readTruth(truthFrame(index, options), finder));
  return out;
}
