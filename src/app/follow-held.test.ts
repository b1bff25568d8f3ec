import { describe, expect, it } from "vitest";
import { newPlan, type Plan } from "../plan/index.ts";
import { ownerAfter } from "./follow-held.ts";

const plan = (...names: string[]) =>
  ({ ...newPlan(), lights: names.map((name) => ({ name })) }) as unknown as Plan;

describe("[WB22] what is held stays held when its list changes under it", () => {
  it.each([
    ["another one before it goes", ["key", "fill"], ["fill"], "lights[1]", "lights[0]"],
    ["another one comes before it", ["key"], ["rim", "key"], "lights[0]", "lights[1]"],
    ["it is given another name", ["key", "fill"], ["key", "fill left"], "lights[1]", "lights[1]"],
    ["it goes itself", ["key", "fill"], ["key"], "lights[1]", null],
    ["it is in no list", ["key"], [], "camera", "camera"],
  ] as const)("%s", (_, before, after, owner, next) => {
    expect(ownerAfter(plan(...before), plan(...after), owner)).toBe(next);
  });
});
