import { describe, expect, it } from "vitest";
import { type MadeProfile, makeProfile } from "../files/testing/make-profile.ts";
import { readProfile } from "./icc-profile.ts";
import { ADOBE_RGB, DISPLAY_P3, SRGB } from "./icc-space.ts";

const SRGB_D50 = [
  [0.43607, 0.22249, 0.01392],
  [0.38515, 0.71687, 0.09708],
  [0.14307, 0.06061, 0.7141],
];
const ADOBE_D50 = [
  [0.60974, 0.31111, 0.01947],
  [0.20528, 0.62567, 0.06087],
  [0.14919, 0.06322, 0.74457],
];
const P3_D50 = [
  [0.5151, 0.2412, -0.00105],
  [0.29198, 0.69225, 0.04189],
  [0.1571, 0.06657, 0.78407],
];

function spaceIn(made: MadeProfile) {
  const read = readProfile(makeProfile(made));
  if (read.kind !== "matrix") throw new Error(`${read.kind}`);
  return read.space;
}

describe("embedded profiles", () => {
  it("[PF3] the usual spaces are known by what they do, whatever they call themselves", () => {
    const points = Array.from({ length: 1024 }, (_, i) => SRGB.curves[0](i / 1023));
    const cases = [
      [{ name: "sRGB IEC61966-2.1", colours: SRGB_D50, curve: { kind: "points", points } }, SRGB],
      [{ name: "a camera's own", colours: SRGB_D50, curve: { kind: "srgb" } }, SRGB],
      [{ name: "P3", colours: P3_D50, curve: { kind: "srgb" } }, DISPLAY_P3],
      [{ name: "compatible", colours: ADOBE_D50, curve: { kind: "power", exponent: 563 / 256 } }, ADOBE_RGB],
    ] as const;
    for (const [made, expected] of cases) {
      const space = spaceIn(made);
      expect(space.name).toBe(expected.name);
      // s15Fixed16 and published five digits
      for (const [i, value] of expected.toSrgb.entries()) expect(space.toSrgb[i]).toBeCloseTo(value, 2);
      for (const x of [0, 0.02, 0.2, 0.46, 0.9, 1])
        expect(Math.abs(space.curves[1](x) - expected.curves[1](x))).toBeLessThan(1e-4);
    }
  });

  it("[PF3] a linear profile is linear and keeps its name", () => {
    const space = spaceIn({
      name: "Linear of ours",
      colours: SRGB_D50,
      curve: { kind: "power", exponent: 1 },
    });
    expect(space.name).toBe("Linear of ours");
    expect(space.curves[2](0.18)).toBe(0.18);
  });

  it("[PF3] a grey profile has a curve alone", () => {
    const read = readProfile(
      makeProfile({ name: "Grey gamma 2.2", curve: { kind: "power", exponent: 2.19921875 } }),
    );
    expect(read).toMatchObject({ kind: "matrix", space: { name: "Grey gamma 2.2" } });
    if (read.kind === "matrix") expect(read.space.curves[0](0.5)).toBeCloseTo(0.2178, 3);
  });

  it("[PF3] tables are left to the colour engine", () => {
    const more = { A2B0: Buffer.alloc(40) };
    const made = { name: "a printer's", colours: SRGB_D50, curve: { kind: "srgb" }, more } as const;
    expect(readProfile(makeProfile(made))).toEqual({ kind: "tables", name: "a printer's" });
  });

  it("[PF4] a profile that cannot be what it says is named, not believed", () => {
    const sound = makeProfile({ name: "sound", colours: SRGB_D50, curve: { kind: "srgb" } });
    const why = (bytes: Uint8Array) => {
      const read = readProfile(bytes);
      return read.kind === "broken" ? read.why : read.kind;
    };
    expect(why(sound.subarray(0, 100))).toBe("it has 100 bytes");
    expect(why(Buffer.alloc(200))).toBe("its signature is missing");
    const many = Buffer.from(sound);
    many.writeUInt32BE(0xffffffff, 128);
    expect(why(many)).toBe("it claims 4294967295 parts");
    const dark = SRGB_D50.map((colour) => colour.map((value) => value / 3));
    expect(why(makeProfile({ name: "dark", colours: dark, curve: { kind: "srgb" } }))).toMatch(
      /^its white is 0\.321/,
    );
    const lines = {
      name: "two\nlines\u0007",
      colours: SRGB_D50,
      curve: { kind: "power", exponent: 1 },
    } as const;
    expect(spaceIn(lines).name).toBe("twolines");
    // what damage makes of one: each picture black, or turned about
    for (const [points, end] of [
      [[0, 0, 0], "0.000"],
      [[1, 0.5, 0.2], "0.200"],
    ] as const) {
      const made = {
        name: "no white",
        colours: SRGB_D50,
        curve: { kind: "points", points: [...points] },
      } as const;
      expect(why(makeProfile(made))).toBe(`rTRC ends at ${end}, not at 1`);
    }
    // a curve that claims more points than there are bytes
    const long = makeProfile({
      name: "long",
      colours: SRGB_D50,
      curve: { kind: "points", points: [0, 0.5, 1] },
    });
    const at = long.indexOf("curv");
    long.writeUInt32BE(60000, at + 8);
    expect(why(long)).toBe("rTRC is cut off");
  });
});
