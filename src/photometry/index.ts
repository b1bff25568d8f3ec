export * from "./camera.ts";
export * from "./colour.ts";
export * from "./meters.ts";
export * from "./sources.ts";
