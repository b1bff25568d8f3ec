export { type Library, libraryPath, openLibrary } from "./open.ts";
