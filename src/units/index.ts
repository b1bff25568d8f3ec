export * from "./errors.ts";
export * from "./lengths.ts";
export * from "./stops.ts";
