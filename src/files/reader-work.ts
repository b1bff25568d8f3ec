/** Everything that is done to one photograph, from its bytes to what is told of it. */
import { createHash } from "node:crypto";
import { readFile, stat } from "node:fs/promises";
import {
  cardLevel,
  type FaceFinder,
  knownBody,
  makeFaceFinder,
  readPhotograph,
  WORKING_SIDE,
} from "../testframe/index.ts";
import { fileError, WorkError } from "../workbench/index.ts";
import { openFaceNets } from "./face-models.ts";
import { decodePhotograph } from "./photo-decode.ts";
import { LARGEST_FILE } from "./photo-problem.ts";
import { thumbnail } from "./photo-thumbnail.ts";
import type { PhotoSource } from "./reader.ts";
import type { PhotoWork } from "./reader-words.ts";

/** Two columns of them fit a telephone. */
const THUMBNAIL_SIDE = 320;

/** The model is loaded while the first photograph is being decoded, and stays.
 * @param root of the installed program */
export function createPhotoWork(root: string): PhotoWork {
  let finder: Promise<FaceFinder> | null = null;
  const loaded = () => {
    finder ??= openFaceNets(root).then(makeFaceFinder);
    finder.catch(() => {}); // told where it is needed
    return finder;
  };
  return {
    async read(source, { bodies, preview }) {
      const finding = loaded();
      const bytes = await bytesOf(source);
      const photo = await decodePhotograph(source.name, bytes);
      const reading = await readPhotograph(photo, await finding, { known: knownBody(photo.exif, bodies) });
      const id = createHash("sha256").update(`${source.name}\0`).update(bytes).digest("hex").slice(0, 16);
      const small = (side: number) => (preview ? thumbnail(photo, side) : null);
      return { id, reading, preview: await small(WORKING_SIDE), thumbnail: await small(THUMBNAIL_SIDE) };
    },
    async picture(source) {
      return thumbnail(await decodePhotograph(source.name, await bytesOf(source)), WORKING_SIDE);
    },
    async readCard(source) {
      const photo = await decodePhotograph(source.name, await bytesOf(source));
      return { exif: photo.exif, card: cardLevel(photo) };
    },
  };
}

/** Errors  WorkError where it is no file, too large, or may not be read */
async function bytesOf(source: PhotoSource): Promise<Uint8Array> {
  if ("bytes" in source) return source.bytes;
  const { path } = source;
  try {
    const there = await stat(path);
    // a pipe or a device may have no end
    if (!there.isFile())
      throw new WorkError(
        `${path} is no file but a ${there.isDirectory() ? "folder" : "device"}`,
        "name a file",
      );
    if (there.size > LARGEST_FILE)
      throw new WorkError(
        `${path} has ${Math.ceil(there.size / 2 ** 20)} MB; at most ${LARGEST_FILE / 2 ** 20} MB are read`,
        "export a smaller copy",
      );
    return await readFile(path);
  } catch (error) {
    if (error instanceof WorkError) throw error;
    throw fileError(`could not read ${path}`, error);
  }
}
