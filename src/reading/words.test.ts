import { describe, expect, it } from "vitest";
import type { FaceReading } from "./types.ts";
import {
  betweenWords,
  glassesWords,
  lightFromWords,
  litSideWords,
  marginLines,
  marginWords,
  ratioNumberWords,
} from "./words.ts";

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

describe("[RW1] state, margin, remedy in words", () => {
  it("[RW1] a margin says which way the face opens and what opens it", () => {
    expect(marginWords(FACE)).toBe("opens to loop if the head turns 6° toward the light");
    expect(marginWords({ ...FACE, nearest: { pattern: "split", turnDegrees: -12.4, raiseDegrees: 7 } })).toBe(
      "closes to split if the head turns 12° away from the light, or the chin comes up 7°",
    );
    expect(marginWords({ ...FACE, nearest: null })).toBeNull();
  });

  it("[RW1] toward and away follow the side that the light is on", () => {
    const fromRight: FaceReading = { ...FACE, light: { azimuth: -42, elevation: 31 } };
    expect(marginWords(fromRight)).toContain("turns 6° away from the light");
    const ahead: FaceReading = { ...FACE, light: { azimuth: 1, elevation: 31 } };
    expect(marginWords(ahead)).toContain("turns 6° to own left");
  });

  it("[RW1] every way is told: light, drift, head", () => {
    const margins: FaceReading["margins"] = [
      { change: "lightHeight", amount: -20, unit: "centimetres", light: "key", pattern: "loop" },
      { change: "driftAside", amount: 12, unit: "centimetres", light: null, pattern: "loop" },
      { change: "driftAhead", amount: -30, unit: "centimetres", light: null, pattern: "split" },
      { change: "raise", amount: -5, unit: "degrees", light: null, pattern: "loop" },
    ];
    expect(marginLines({ ...FACE, margins })).toEqual([
      "loop if key sinks 20 cm",
      "loop if the sitter drifts 12 cm to own left",
      "split if the sitter drifts 30 cm back",
      "loop if the chin goes down 5°",
    ]);
  });

  it("[RW1] lit side, both n:1, where from, close to another", () => {
    expect(litSideWords(FACE)).toBe("own left lit, short");
    expect(litSideWords({ ...FACE, litSide: "even", side: "square" })).toBe(
      "both cheeks alike, square to the lens",
    );
    expect(ratioNumberWords(FACE)).toBe("4.0:1 lit to shadow, 3.0:1 key to fill");
    const even = { ...FACE, ratio: { ...FACE.ratio, litToShadow: 1.02, keyToFill: 0.02 } };
    expect(ratioNumberWords(even)).toBe("1.0:1 lit to shadow");
    expect(lightFromWords(FACE)).toBe("42° to own left, 31° up");
    expect(lightFromWords({ ...FACE, light: { azimuth: -90, elevation: -5 } })).toBe(
      "90° to own right, 5° down",
    );
    expect(lightFromWords({ ...FACE, light: { azimuth: null, elevation: null } })).toBeNull();
    expect(betweenWords(FACE)).toBeNull();
    expect(betweenWords({ ...FACE, between: "loop" })).toBe("close to loop");
  });

  it("[RW1] glasses: what lies on them, and what clears them", () => {
    expect(glassesWords(FACE)).toBeNull();
    expect(glassesWords({ ...FACE, glasses: { reflections: [], clears: null } })).toBe("glasses clear");
    const reflections = [
      { eye: "left" as const, light: "key", kind: "light" as const, share: 0.2, overPupil: true },
    ];
    const clears = { change: "raise" as const, amount: -6, light: null };
    expect(glassesWords({ ...FACE, glasses: { reflections, clears } })).toBe(
      "key on the glasses, over the pupil; clear if the chin goes down 6°",
    );
  });
});
