export * from "./lights.ts";
export * from "./people.ts";
export * from "./stage.ts";
