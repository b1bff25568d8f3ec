export { dataFolder } from "./data-folder.ts";
export { createDesk, type Desk } from "./desk.ts";
export { createGearFile } from "./gear-file.ts";
export { decodePhotograph } from "./photo-decode.ts";
export { LARGEST_FILE } from "./photo-problem.ts";
export { thumbnail } from "./photo-thumbnail.ts";
export type { PhotoReader, PhotoSource, ReadCard, ReadOptions, ReadPhoto } from "./reader.ts";
export { startReader } from "./reader-process.ts";
export { serveReader } from "./reader-serve.ts";
