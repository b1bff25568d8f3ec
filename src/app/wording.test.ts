import { describe, expect, test } from "vitest";
import { type FaceReading, litSideWords, type PlanReading } from "../reading/index.ts";
import {
  announce,
  directionWords,
  headroomWords,
  marginWords,
  oneSidedWords,
  percent,
  ratioWords,
  signedStops,
} from "./wording.ts";

const FACE: FaceReading = {
  pattern: "rembrandt",
  litSide: "left",
  litCheek: 160,
  shadowCheek: 40,
  ratioStops: 2,
  side: "short",
  light: { azimuth: 42, elevation: 31 },
  vectorScalarRatio: 3.1,
  shadowEdgeMillimetres: 14.2,
  nearest: { pattern: "loop", turnDegrees: 6, raiseDegrees: null },
  catchlights: [],
};

const READING: PlanReading = {
  meters: [
    {
      name: "chin",
      luxSeconds: 161,
      fNumber: 8.03,
      fStops: "f/8 + 0.0",
      byLight: {},
      vector: { bearing: 183, tilt: 41, luxSeconds: 150 },
      scalarLuxSeconds: 61,
      vectorScalarRatio: 2.45,
    },
  ],
  people: [{ name: "cellist", face: FACE }],
  camera: { clipped: { skin: 0, frame: 0 }, headroomStops: 0.63, backgroundStops: -2.1 },
  warnings: [],
};

describe("state, margin, remedy", () => {
  test("[AP2] a margin says which way the face opens and what opens it", () => {
    expect(marginWords(FACE)).toBe("opens to loop if the head turns 6° toward the light");
    expect(marginWords({ ...FACE, nearest: { pattern: "split", turnDegrees: -12.4, raiseDegrees: 7 } })).toBe(
      "closes to split if the head turns 12° away from the light, or the chin comes up 7°",
    );
  });

  test("[AP2] toward and away follow the side that the light is on", () => {
    const fromRight: FaceReading = { ...FACE, light: { azimuth: -42, elevation: 31 } };
    expect(marginWords(fromRight)).toContain("turns 6° away from the light");
    const ahead: FaceReading = { ...FACE, light: { azimuth: 1, elevation: 31 } };
    expect(marginWords(ahead)).toContain("turns 6° to own left");
  });

  test("[AP2] without a neighbour in reach there is no margin to state", () => {
    expect(marginWords({ ...FACE, nearest: null })).toBeNull();
  });

  test("[AP2] lit side, ratio, direction, one-sidedness", () => {
    expect(litSideWords(FACE)).toBe("own left lit, short");
    expect(litSideWords({ ...FACE, litSide: "even", side: "square" })).toBe(
      "both cheeks alike, square to the lens",
    );
    expect(ratioWords(FACE)).toEqual({
      strong: "2.0 stops",
      rest: "cheek to cheek",
      detail: "4.0:1 lit to shadow",
    });
    expect(ratioWords({ ...FACE, ratioStops: null }).strong).toBe("No ratio");
    expect(directionWords(FACE.light)).toBe("42° to own left, 31° up");
    expect(directionWords({ azimuth: -90, elevation: -5 })).toBe("90° to own right, 5° down");
    expect(oneSidedWords(4)).toBe("nearly all from one side");
    expect(oneSidedWords(0)).toBe("much the same from everywhere");
  });

  test("[AP2] headroom says how far and, when over, how much of the skin", () => {
    expect(headroomWords(READING.camera)).toMatchObject({
      strong: "0.6 stops",
      rest: "to clipping",
      over: false,
    });
    const over = { clipped: { skin: 0.034, frame: 0.02 }, headroomStops: -0.42, backgroundStops: null };
    expect(headroomWords(over)).toEqual({
      strong: "0.4 stops",
      rest: "over, skin clips",
      detail: "3.4 % of the skin clips",
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
