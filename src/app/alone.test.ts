import { describe, expect, it } from "vitest";
import { followAlone } from "./alone.ts";

describe("[AP56] the light that is seen alone is followed when lights come and go", () => {
  it.each([
    [["key", "fill"], ["key", "fill"], "lights[1]", "lights[1]"],
    [["key", "fill"], ["fill"], "lights[1]", "lights[0]"],
    [["key", "fill"], ["key"], "lights[1]", null],
    [["key", "fill", "hair"], ["fill", "hair"], "lights[0]", null],
    [["key", "fill"], ["key", "kicker"], "lights[1]", "lights[1]"],
    [["key"], ["key", "fill"], "lights[0]", "lights[0]"],
    [["key"], [], "lights[0]", null],
    [["key"], ["sun"], null, null],
    [["key"], ["key"], "lights[4]", null],
  ])("%j to %j, %s is %s", (before, after, alone, now) =>
    expect(followAlone(before, after, alone)).toBe(now),
  );
});
