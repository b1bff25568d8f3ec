export * from "./pcg32.ts";
export * from "./quadrature.ts";
export * from "./sequences.ts";
export * from "./vec3.ts";
