/** `tapemark photo --bracket`: a camera's own curve, from a bracket of a grey card, kept in the gear book. */
import type { PhotoReader, ReadCard } from "../files/index.ts";
import { bodyOf, exposureStops, fitResponse } from "../testframe/index.ts";
import { type GearStore, learnBody, WorkError } from "../workbench/index.ts";
import type { Surroundings } from "./around.ts";

/** Between the quarter marks of a card: more is no card lit evenly. */
const UNEVEN_STOPS = 0.3;

export interface PhotoCall {
  readonly reader: PhotoReader;
  readonly gear: GearStore;
  readonly isJson: boolean;
  readonly around: Surroundings;
}

interface CardFrame extends ReadCard {
  readonly name: string;
  /** as the camera was set */
  readonly exposure: number;
}

export async function readBracket(
  paths: readonly string[],
  { reader, gear, isJson, around }: PhotoCall,
): Promise<number> {
  const frames = await Promise.all(paths.map((path) => cardFrame(path, reader)));
  const body = sameBody(frames);
  for (const { name, card } of frames)
    if (card.spreadStops > UNEVEN_STOPS)
      around.error(
        `tapemark: ${name}: its middle differs by ${card.spreadStops.toFixed(1)} stop; fill the middle with the card, lit evenly\n`,
      );
  const exposures = frames.map(({ exposure }) => exposure);
  const metered = (Math.min(...exposures) + Math.max(...exposures)) / 2;
  const fitted = fitResponse(
    frames.map(({ card, exposure }) => ({ stops: exposure - metered, level: card.level })),
  );
  if (fitted.kind === "problem") throw new WorkError(fitted.problem, fitted.cure);
  const { curve } = fitted;
  const leftOut = fitted.leftOut.map(({ index, offStops }) => ({ name: frames[index].name, offStops }));
  const day = around.now().toISOString().slice(0, 10);
  await gear.save(learnBody(await gear.load(), body, curve, day));
  if (isJson) around.out(`${JSON.stringify({ body, curve, leftOut })}\n`);
  else {
    const lines = [
      `${body}: its curve from ${curve.frames} frames, which lie within ${curve.rmsStops.toFixed(2)} stop of it`,
      `  it clips ${curve.clippingStops.toFixed(1)} stops over middle grey`,
      ...leftOut.map(
        ({ name, offStops }) => `  ${name} lies ${offStops.toFixed(1)} stop off and was left out`,
      ),
      "  kept in the gear book: photographs of this camera are read by it from now on",
    ];
    around.out(`${lines.join("\n")}\n`);
  }
  return 0;
}

async function cardFrame(path: string, reader: PhotoReader): Promise<CardFrame> {
  const read = await reader.readCard({ name: path, path });
  const exposure = exposureStops(read.exif);
  if (exposure === null)
    throw new WorkError(
      `${path} does not say at which time, aperture and ISO it was taken`,
      "use files as the camera writes them",
    );
  return { ...read, name: path, exposure };
}

function sameBody(frames: readonly CardFrame[]): string {
  const bodies = new Set(frames.map(({ exif }) => bodyOf(exif)));
  const [body] = bodies;
  if (bodies.size > 1)
    throw new WorkError("the frames come from several cameras", "take a bracket for each of them");
  if (body === null)
    throw new WorkError(
      "the frames do not say which camera took them",
      "use files as the camera writes them",
    );
  return body;
}
