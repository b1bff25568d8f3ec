import { later } from "./later.tsx";

/** Loaded once something is held that has a distance. */
export const BodyReachLine = later(async () => (await import("./body-reach.tsx")).BodyReach);
