import { describe, expect, test } from "vitest";
import { fitBracket } from "./shoot-card.ts";
import { frameOf } from "./shoot-testing.ts";

/** A bracket by aperture of a card that a file with the standard's own curve holds: level and light are the same thing. */
function bracket(model: string | null = "B2") {
  const apertures = [2, 2.8, 4, 5.6, 8, 11, 16];
  const frames = apertures.map((fNumber, i) => {
    const frame = frameOf(i);
    const exif = { ...frame.reading.image.exif, make: "A maker", model, fNumber };
    return { ...frame, reading: { ...frame.reading, image: { ...frame.reading.image, exif } } };
  });
  const levels = apertures.map((_, i) => Math.min(1, 0.18 * 2 ** (3 - i)));
  return { frames, levels };
}

describe("[AP108] a camera by a grey card", () => {
  test("the curve of a file without one of its own clips where 18 % grey has 2.5 stops left", () => {
    const { frames, levels } = bracket();
    const fitted = fitBracket(frames, levels);
    expect(fitted).toMatchObject({ kind: "fitted", body: "A maker B2" });
    // a tenth of a stop is as finely as a meter tells
    if (fitted.kind === "fitted")
      expect(Math.abs(fitted.curve.clippingStops - Math.log2(1 / 0.18))).toBeLessThan(0.1);
  });

  test("several cameras, none, or a frame without its exposure are said with their cure", () => {
    const { frames, levels } = bracket();
    const nameless = bracket(null);
    expect(fitBracket([...frames, ...nameless.frames], [...levels, ...levels])).toMatchObject({
      problem: "the frames come from several cameras",
    });
    expect(fitBracket(nameless.frames, levels)).toMatchObject({ kind: "problem" });
    const [first, ...rest] = frames as [(typeof frames)[0], ...typeof frames];
    const { image } = first.reading;
    const unset = {
      ...first,
      reading: { ...first.reading, image: { ...image, exif: { ...image.exif, iso: null } } },
    };
    expect(fitBracket([unset, ...rest], levels)).toMatchObject({
      problem: "a frame does not say how it was exposed",
    });
  });
});
