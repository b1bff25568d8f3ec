import { describe, expect, test } from "vitest";
import {
  catchlightsText,
  exifLine,
  fromLensText,
  lightText,
  patternText,
  skinText,
} from "../testframe/index.ts";
import { lidsWords, motionWords, sharpnessWords } from "./shoot-eyes.ts";
import { FACE, frameOf } from "./shoot-testing.ts";
import { frameLine, lostWords, seenLines, takenText } from "./shoot-words.ts";

describe("a frame by itself", () => {
  test("[AP94] one line says pattern and ratio, or what is missing", () => {
    expect(frameLine(FACE)).toBe("Rembrandt, 2.1 stops");
    expect(frameLine({ ...FACE, ratioStops: null })).toBe("Rembrandt");
    expect(frameLine({ ...FACE, pattern: null, ratioStops: 1 })).toBe("pattern unclear, 1.0 stop");
    expect(frameLine(null)).toBe("no face found");
  });

  test("[AP129] what is lost with it is told before it is taken out of the library", () => {
    expect(lostWords({ stars: 0, isSelect: false })).toBeNull();
    expect(lostWords({ stars: 1, isSelect: false })).toBe("has 1 star");
    expect(lostWords({ stars: 0, isSelect: true })).toBe("is a select");
    expect(lostWords({ stars: 4, isSelect: true })).toBe("has 4 stars and is a select");
  });

  test("[AP97] its own numbers, with how sure they are", () => {
    expect(lightText(FACE)).toBe("40° to own left, 30° up, ± 5°");
    expect(patternText({ ...FACE, between: "loop" })).toBe("Rembrandt, close to loop");
    const lines = Object.fromEntries(seenLines(FACE).map(({ what, seen }) => [what, seen]));
    expect(lines).toMatchObject({
      exposure: "lit cheek 2.4 stops under clipping",
      ratio: "2.1 ± 0.4 stops",
      background: "−3.5 stops against the lit cheek",
      side: "own left lit",
      catchlights: "2:00, round in both eyes",
    });
    const unknown = seenLines({ ...FACE, light: null, ratioStops: null, pattern: null, litSide: null });
    expect(unknown.filter(({ seen }) => seen === "cannot tell")).toHaveLength(4);
  });

  test("[AP97] where the light comes from as the camera sees it", () => {
    expect(fromLensText({ azimuth: -20.4, elevation: -5 })).toBe(
      "20° to picture left, 5° down from the lens",
    );
    expect(fromLensText({ azimuth: 0.2, elevation: 0.3 })).toBe(
      "straight from the camera, level from the lens",
    );
  });

  test("[AP97] catchlights by the eye where they differ", () => {
    expect(catchlightsText([])).toBe("none that can be told");
    expect(
      catchlightsText([
        { eye: "left", clock: 1.5, shape: "unclear", widthDegrees: 4 },
        { eye: "right", clock: 10, shape: "strip", widthDegrees: 4 },
      ]),
    ).toBe("1:30 in the own left eye; 10:00, strip in the own right eye");
  });

  test("[AP97] exposures as engraved stop and tenths, and only what the file says", () => {
    const { exif } = frameOf(1).reading.image;
    expect(exifLine(exif)).toBe("135 mm, f/8 + 0.0, 1/160, ISO 100");
    expect(exifLine({ ...exif, focalLength: null, fNumber: null, shutter: null, iso: null })).toBeNull();
    expect(takenText(exif)).toBe("10:12:30");
    expect(skinText({ ...FACE, clippedSkin: 0.013 })).toEqual({
      text: "1.3 % of the skin clips",
      over: true,
    });
    expect(skinText(FACE).text).toBe("nothing clips on the skin; 1.1 stops to clipping");
  });
});

describe("[AP100] what speaks for a frame", () => {
  const edge = (edgePixels: number | null) => [{ ...FACE, eyes: { ...FACE.eyes, edgePixels } }];
  const words = (own: number | null, other: number | null) => {
    const [a, b] = [frameOf(1, edge(own)), frameOf(2, edge(other))];
    return sharpnessWords(a, a.reading.faces[0] as typeof FACE, [a, b], {});
  };
  test("sharpness beside the sharpest other of its size", () => {
    expect(words(2, 3)).toBe("sharper at the eyes than IMG_2.JPG, the next best: 2.0 px against 3.0 px");
    expect(words(3, 2)).toBe("softer at the eyes than IMG_2.JPG: 3.0 px against 2.0 px");
    expect(words(2, 2.2)).toBe("as sharp at the eyes as IMG_2.JPG: 2.0 px against 2.2 px");
    expect(words(2, null)).toBe("the sharper eye's edges are 2.0 px wide");
    expect(words(null, 2)).toBe("how sharp the eyes are cannot be told");
  });

  test("lids and smear, each its own way", () => {
    const eyes = (left: number | null, right: number | null) =>
      lidsWords({ ...FACE.eyes, open: { left, right } });
    expect(eyes(0.9, 0.9)).toBe("both eyes open");
    expect(eyes(0.9, 0.1)).toBe("own left eye open, own right eye shut");
    expect(eyes(null, 0.4)).toBe("own right eye half open");
    expect(eyes(null, null)).toBe("lids cannot be told");
    const smear = (pixels: number, direction: number) =>
      motionWords({ ...FACE.eyes, motion: { pixels, direction } });
    expect(smear(0.4, 90)).toBe("no smear");
    expect(smear(3.2, 176)).toBe("smeared by 3.2 px, level");
    expect(smear(3.2, 85)).toBe("smeared by 3.2 px, upright");
    expect(smear(3.2, -140)).toBe("smeared by 3.2 px, at 40°");
  });
});
