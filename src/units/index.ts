export * from "./errors.ts";
export * from "./fractions.ts";
export * from "./lengths.ts";
export * from "./meter-shown.ts";
export * from "./quantity.ts";
export * from "./stops.ts";
export * from "./weights.ts";
export * from "./written.ts";
