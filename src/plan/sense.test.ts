import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { breaking, told } from "./testing/told.ts";

const demoText = readFileSync("examples/cellist.json", "utf8");
const broken = breaking(demoText);

describe("[PL21] a head is plugged into a circuit that the plan has", () => {
  const lamp = {
    lights: [{ position: [1, 1, 1], direction: { bearing: 0, tilt: 0 }, face: { shape: "point" } }],
  };
  const plugged = (circuits: unknown[], circuit: string) =>
    told(
      JSON.stringify({
        format: "tapemark/plan",
        version: 1,
        circuits,
        lights: [{ ...lamp.lights[0], output: { lumenSeconds: 1 }, head: { circuit } }],
      }),
    );
  const wall = { name: "wall left", amps: 16 };
  it("there", () => expect(plugged([wall], "wall left")).toBe(""));
  it("not there", () => {
    const cure =
      /^lights\[0\]\.head\.circuit: must be the name of one of the plan's circuits; there is no "wall right"/;
    expect(plugged([wall], "wall right")).toMatch(cure);
  });
  it("two of one name", () => {
    expect(plugged([wall, wall], "wall left")).toMatch(/^circuits\[1\]\.name: must be a name of its own/);
  });
});

describe("[PL4] what cannot stand in a room is said", () => {
  // biome-ignore lint/suspicious/noExplicitAny: as in testing/told.ts
  it.each<[string, (p: any) => void, string | RegExp]>([
    [
      "under the floor",
      (p) => (p.lights[0].position[2] = -0.2),
      "lights[0].position[2]: must be a number from 0 to 3.4 m; z = -0.2 m is under the floor",
    ],
    [
      "outside",
      (p) => (p.people[0].position = [7.2, 4]),
      "people[0].position[0]: must be a number from 0 to 7 m; x = 7.2 m is outside the room",
    ],
    [
      "two of one name",
      (p) => p.lights.push(structuredClone(p.lights[0])),
      'lights[1].name: must be a name of its own; "key" is already lights[0]',
    ],
    [
      "ambient is a word of readings",
      (p) => (p.lights[0].name = "ambient"),
      /^lights\[0\]\.name: must be another name/,
    ],
    [
      "aims at itself",
      (p) => (p.lights[0].direction = { at: p.lights[0].position }),
      /^lights\[0\]\.direction\.at: must be another point/,
    ],
    [
      "aims nearer to itself than a file can tell",
      (p) => (p.lights[0].direction = { at: p.lights[0].position.map((v: number) => v + 1e-8) }),
      /^lights\[0\]\.direction\.at: must be another point/,
    ],
    [
      "gives back a millionth more, once written to a file",
      (p) => Object.assign(p.panels[0], { reflectance: 0.0000015, transmittance: 0.9999985 }),
      /^panels\[0\]\.transmittance: must be a number from 0 to 0\.999998/,
    ],
    [
      "gives back more than it gets",
      (p) => (p.panels[0].transmittance = 0.97),
      /^panels\[0\]\.transmittance: must be a number from 0 to 0\.96: with the reflectance, 0\.04,/,
    ],
    [
      "a lobe that only points have",
      (p) => (p.lights[0].beam.exponent = 0.5),
      /^lights\[0\]\.beam\.exponent: must be a number from 1 to 60 for a front with a size/,
    ],
    [
      "taller than the room",
      (p) => (p.room.height = 1.5),
      /^people\[0\]\.stature: must be at most 1\.5 m, the height of the room; it is 1\.72 m/m,
    ],
    ["paper higher than the room", (p) => (p.backdrop.top = 4), /^backdrop\.top: must be at most 3\.4 m/],
    [
      "a curve larger than the paper",
      (p) => (p.backdrop.sweepRadius = 3),
      /^backdrop\.sweepRadius: must be at most 2\.8 m/,
    ],
  ])("%s", (_, change, message) => {
    if (typeof message === "string") expect(broken(change)).toBe(message);
    else expect(broken(change)).toMatch(message);
  });
  it("walls, floor and ceiling count as inside", () =>
    expect(
      broken((p) => {
        p.lights[0].position = [7, 9, 3.4];
        p.meters[0].position = [0, 0, 0];
      }),
    ).toBe(""));
  it("in open space everything is inside", () =>
    expect(
      broken((p) => {
        p.room = null;
        p.lights[0].position = [-3, -4, 5];
      }),
    ).toBe(""));
  it("a point may shine all over its half-space", () =>
    expect(
      broken((p) => {
        p.lights[0].face = { shape: "point" };
        p.lights[0].beam = { exponent: 0 };
      }),
    ).toBe(""));
});
