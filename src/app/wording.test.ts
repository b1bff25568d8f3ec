import { describe, expect, test } from "vitest";
import type { FaceReading, PlanReading } from "../reading/index.ts";
import { announce, groupWords, headroomWords, percent, ratioWords, signedStops, theOne } from "./wording.ts";

const FACE: FaceReading = {
  pattern: "rembrandt",
  between: null,
  litSide: "left",
  litCheek: 160,
  shadowCheek: 40,
  ratioStops: 2,
  litCheekUncertaintyStops: 1,
  ratioUncertaintyStops: 0.2,
  ratio: { litToShadow: 4, keyToFill: 3 },
  side: "short",
  light: { azimuth: 42, elevation: 31 },
  vectorScalarRatio: 3.1,
  spread: "mostly from one side",
  shadowEdgeMillimetres: 14.2,
  noseShadow: null,
  nearest: { pattern: "loop", turnDegrees: 6, raiseDegrees: null },
  margins: [],
  catchlights: [],
  glasses: null,
};

const READING: PlanReading = {
  meters: [
    {
      name: "chin",
      luxSeconds: 161,
      fNumber: 8.03,
      fStops: "f/8 + 0.0",
      uncertaintyStops: 1,
      byLight: {},
      vector: { bearing: 183, tilt: 41, luxSeconds: 150 },
      scalarLuxSeconds: 61,
      vectorScalarRatio: 2.45,
    },
  ],
  people: [{ name: "cellist", face: FACE }],
  group: null,
  camera: {
    clipped: { skin: 0, frame: 0 },
    headroomStops: 0.63,
    withoutShine: { clippedSkin: 0, headroomStops: 0.8 },
    channels: {
      red: { clippedSkin: 0, headroomStops: 0.8 },
      green: { clippedSkin: 0, headroomStops: 0.8 },
      blue: { clippedSkin: 0, headroomStops: 0.8 },
    },
    backgroundStops: -2.1,
  },
  warnings: [],
};

test("the cellist has an article, Maria and Óscar have none", () => {
  expect(["cellist", "Maria", "Óscar"].map(theOne)).toEqual(["the cellist", "Maria", "Óscar"]);
});

describe("state, margin, remedy", () => {
  test("[AP2] contrast: stops and both n:1", () => {
    expect(ratioWords(FACE)).toEqual({
      strong: "2.0 stops",
      rest: "cheek to cheek",
      detail: "4.0:1 lit to shadow, 3.0:1 key to fill",
    });
    const dark = { ...FACE, ratioStops: null, ratio: { litToShadow: null, keyToFill: null } };
    expect(ratioWords(dark)).toEqual({ strong: "No ratio", rest: "", detail: "one cheek gets no light" });
  });

  test("[AP2] a group says how far apart its faces are and who stands in whose light", () => {
    const group = { spreadStops: 1.04, brightest: "viola", darkest: "bass", shading: [] };
    expect(groupWords(group)).toEqual({
      strong: "1.0 stop",
      rest: "across the faces",
      detail: "viola brightest, bass darkest; nobody stands in another's light",
    });
    const shading = [{ light: "key", by: "viola", on: "bass", share: 0.3 }];
    expect(groupWords({ ...group, shading }).detail).toContain("viola takes 30 % of key from bass");
    expect(groupWords({ ...group, spreadStops: null }).strong).toBe("No spread");
  });

  test("[AP2] headroom says how far and, when over, how much of the skin", () => {
    expect(headroomWords(READING.camera)).toMatchObject({
      strong: "0.6 stops",
      rest: "to clipping",
      over: false,
    });
    const over = {
      ...READING.camera,
      clipped: { skin: 0.034, frame: 0.02 },
      headroomStops: -0.42,
      withoutShine: { clippedSkin: 0, headroomStops: -0.22 },
    };
    expect(headroomWords(over)).toEqual({
      strong: "0.4 stops",
      rest: "over, skin clips",
      detail: "3.4 % of the skin clips; shine takes 0.2 stop",
      over: true,
    });
  });

  test("[AP2] stops carry a true minus; a share that is not nothing is never 0 %", () => {
    expect(signedStops(-0.449)).toBe("−0.4");
    expect(signedStops(-0.04)).toBe("0.0");
    expect(percent(0.0001)).toBe("under 0.1 %");
    expect(percent(0)).toBe("0.0 %");
  });

  test("[AP8] the spoken sentence holds pattern, contrast, first meter and headroom", () => {
    expect(announce(READING, 0)).toBe(
      "Rembrandt, own left lit, short; 2.0 stops cheek to cheek; chin f/8 + 0.0; 0.6 stops to clipping.",
    );
    expect(
      announce({ ...READING, people: [], meters: [], camera: { ...READING.camera, headroomStops: null } }, 0),
    ).toBe("Nobody to read.");
  });
});
