export * from "./apex.ts";
export * from "./axial.ts";
export * from "./camera.ts";
export * from "./colour.ts";
export * from "./disc-factors.ts";
export * from "./flash.ts";
export * from "./light-vector.ts";
export * from "./lm63.ts";
export * from "./meters.ts";

export * from "./mirror.ts";
export * from "./photometric-web.ts";
export * from "./picture.ts";
export * from "./polygon-factor.ts";
export * from "./ratios.ts";
export * from "./receptors.ts";
export * from "./rectangle-factors.ts";
