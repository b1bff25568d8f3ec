export * from "./errors.ts";
export * from "./ports.ts";
export * from "./session.ts";
