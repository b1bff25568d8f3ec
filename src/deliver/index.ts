/** Is the picture good enough for its final size? What the file, the lens and the flash leave of it, against what the eye
 * tells apart from where people stand. */
export * from "./apparent.ts";
export * from "./final-use.ts";
export * from "./types.ts";
export * from "./uses.ts";
export * from "./words.ts";
