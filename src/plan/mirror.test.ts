import { describe, expect, it } from "vitest";
import { mirrored, mirroredBearing } from "./mirror.ts";

const plane = { through: [3.5, 4.6], bearing_deg: 180 } as const;

describe("[AP24] the other side of the sitter's axis", () => {
  it("somebody who faces the camera side has left and right changed over, nothing else", () => {
    const light = {
      position: [4.45, 3.55, 2.45],
      direction: { at: [3.4, 4.5, 1.55] as [number, number, number] },
      roll: 15,
    };
    expect(mirrored(light, plane)).toEqual({
      position: [2.55, 3.55, 2.45],
      direction: { at: [3.6, 4.5, 1.55] },
      roll: -15,
    });
  });
  it("an aim by angle turns round the axis and keeps its tilt", () => {
    expect(
      mirrored({ position: [1, 1, 2], direction: { bearing: 105, tilt: -20 } }, plane).direction,
    ).toEqual({
      bearing: 255,
      tilt: -20,
    });
    const arm = { reach: 1.2, mass: 0, counterReach: 0.6, counterweight: 4.5, bearing: 105 };
    const support = {
      name: "boom",
      legs: 3,
      footRadius: 0.5,
      mass: 4,
      bag: 0,
      load: 3,
      legUnderLoad: false,
      arm,
    };
    const held = { position: [1, 1, 2], support: { ...support, isWheeled: false } };
    expect(mirrored(held, plane).support).toEqual({ ...held.support, arm: { ...arm, bearing: 255 } });
    const unknown = { ...held.support, arm: { ...arm, bearing: null } };
    expect(mirrored({ ...held, support: unknown }, plane)).not.toHaveProperty("support");
    expect(mirroredBearing(180, plane)).toBe(180);
    expect(mirroredBearing(0, { through: [0, 0], bearing_deg: 45 })).toBe(90);
  });
  it("a slant axis: by hand, across the line y = x", () => {
    const { position } = mirrored({ position: [2, 0, 1] }, { through: [0, 0], bearing_deg: 45 });
    expect(position).toEqual([0, 2, 1]);
  });
});
