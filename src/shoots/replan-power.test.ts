import { expect, it } from "vitest";
import { powerFactors } from "./replan-power.ts";

const gives = (left: number, right: number, background: number) => ({ left, right, background });

it("[SO12] each light is set by what it counts for: key by the lit cheek, fill by the other one, background light by the paper", () => {
  const lights = [
    { name: "key", before: gives(100, 20, 10), after: gives(200, 80, 5) },
    { name: "fill", before: gives(15, 18, 8), after: gives(15, 36, 8) },
    { name: "paper", before: gives(1, 1, 60), after: gives(4, 4, 15) },
    { name: "floor lamp", before: gives(0, 0, 0.1), after: gives(0, 0, 0.3) },
  ];
  expect([...powerFactors(lights, "left")]).toEqual([
    ["key", 0.5],
    ["fill", 0.5],
    ["paper", 4],
  ]);
});
