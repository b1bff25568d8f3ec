export { createSession } from "./create-session.ts";
export * from "./errors.ts";
export { createMemoryStore, titleOf } from "./memory-store.ts";
export * from "./ports.ts";
export * from "./session.ts";
