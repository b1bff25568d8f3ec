export { linesApart } from "./apart.ts";
export * from "./archive-form.ts";
export * from "./archive-names.ts";
export { type ChangeGroup, type ChangePart, changeGroups, partOfChange, planChanges } from "./changes.ts";
export * from "./facts.ts";
export * from "./readings-csv.ts";
export * from "./replan-types.ts";
export * from "./types.ts";
