/** A photograph out of a file's bytes: decoded, linearised and measured. */
import {
  ADOBE_RGB,
  type ColourSpace,
  DISPLAY_P3,
  type FilePixels,
  linearTables,
  measureTones,
  type PhotoExif,
  type Photograph,
  type PhotoKind,
  type ReadProfile,
  readProfile,
  reducePixels,
  SRGB,
  uprightSize,
  WORKING_SIDE,
} from "../testframe/index.ts";
import { type ReadExif, readExif } from "./photo-exif.ts";
import { type FileHead, readHead } from "./photo-head.ts";
import { heicLevels } from "./photo-heic.ts";
import { pngSpace } from "./photo-png.ts";
import { calledName } from "./photo-problem.ts";
import { type Levels, sharpLevels } from "./photo-sharp.ts";
import { findPicture, type PictureSource } from "./photo-source.ts";

/** Errors  WorkError in plain words where it is no photograph, damaged, incomplete or too large */
export async function decodePhotograph(name: string, bytes: Uint8Array): Promise<Photograph> {
  const source = findPicture(name, bytes);
  const head = await readHead(name, source.bytes);
  const profile = head.icc && readProfile(head.icc);
  const levels =
    source.kind === "heic"
      ? await heicLevels(name, source.bytes, head)
      : await sharpLevels(name, source.bytes, head, profile?.kind === "tables");
  const { exif, colour } = await readExif([...source.exif, ...(head.exif ? [head.exif] : [])]);
  const found = colourOf({ source, head, levels, profile, told: colour });
  return photographOf(name, source, levels, found, exif);
}

interface Told {
  readonly source: PictureSource;
  readonly head: FileHead;
  readonly levels: Levels;
  readonly profile: ReadProfile | null;
  /** by Exif */
  readonly told: ReadExif["colour"];
}

interface FoundColour {
  readonly space: ColourSpace;
  readonly isAssumed: boolean;
  readonly notes: readonly string[];
}

/** The profile comes first, then what the kind of file says, then Exif. */
function colourOf({ source, head, levels, profile, told }: Told): FoundColour {
  const sure = (space: ColourSpace): FoundColour => ({ space, isAssumed: false, notes: [] });
  if (levels.converted) return sure(levels.converted === "sRGB" ? SRGB : DISPLAY_P3);
  if (head.channels === "float") return sure(SRGB);
  if (profile?.kind === "matrix") return sure(profile.space);
  const notes = profile?.kind === "broken" ? [`its colour profile cannot be read: ${profile.why}`] : [];
  const space = source.kind === "png" ? pngSpace(source.bytes) : null;
  if (space) return { ...sure(space), notes };
  if (told) return { ...sure(told === "sRGB" ? SRGB : ADOBE_RGB), notes };
  notes.push("nothing in the file says what its colours are: taken as sRGB");
  return { space: SRGB, isAssumed: true, notes };
}

/** Where levels are rounded on the way through a lossy file, the highest two stand for what clipped. */
const LOSSY = new Set<PhotoKind>(["jpeg", "webp", "heic", "raw preview"]);

function photographOf(
  name: string,
  { kind, notes, orientation }: PictureSource,
  levels: Levels,
  colour: FoundColour,
  exif: PhotoExif,
): Photograph {
  const bits = levels.data instanceof Uint16Array ? 16 : 8;
  const highest = 2 ** bits - 1;
  const pixels: FilePixels = {
    data: levels.data,
    width: levels.width,
    height: levels.height,
    channels: levels.channels,
    orientation: levels.orientation ?? orientation ?? 1,
    clipLevel: LOSSY.has(kind) ? highest - 1 : highest,
    space: colour.space,
    linear: linearTables(colour.space, bits === 16 ? 65536 : 256),
  };
  const { width, height } = uprightSize(pixels);
  return {
    name: calledName(name),
    kind,
    width,
    height,
    ...reducePixels(pixels, { left: 0, top: 0, width, height }, WORKING_SIDE),
    tones: measureTones(pixels),
    colour: {
      profile: colour.space.name,
      isAssumed: colour.isAssumed,
      bits,
      isGrey: levels.channels === 1,
    },
    exif,
    notes: [...notes, ...levels.notes, ...colour.notes],
    crop: (box, longSide) => reducePixels(pixels, box, longSide).picture,
  };
}
