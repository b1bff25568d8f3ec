export { faceRows } from "./face-rows.ts";
export { studioRows } from "./studio-rows.ts";
export { rows } from "./work.ts";
