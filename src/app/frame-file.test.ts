import { decode } from "fast-png";
import { describe, expect, it } from "vitest";
import { pictureFile } from "./frame-file.ts";
import { PLAIN_LOOK } from "./frame-look.ts";
import { ToneTable } from "./frame-tone.ts";

const shallow = {
  width: 2,
  height: 1,
  rgba: Uint8ClampedArray.of(10, 20, 30, 255, 255, 128, 0, 255),
  deep: null,
};
const deep = { ...shallow, deep: Uint16Array.of(2570, 5141, 7710, 65535, 32896, 1) };
const mono = { on: true, contrast: 0.5, shadowLift: 1 };

describe("the picture as a file", () => {
  it("[AP46] eight bits are the picture's own", () => {
    const { depth, channels, data } = decode(pictureFile({ picture: shallow, mono: PLAIN_LOOK.mono }));
    expect({ depth, channels, data: [...data] }).toEqual({
      depth: 8,
      channels: 3,
      data: [10, 20, 30, 255, 128, 0],
    });
  });

  it("[AP46] sixteen bits are, to the last", () => {
    const { depth, channels, data } = decode(pictureFile({ picture: deep, mono: PLAIN_LOOK.mono }));
    expect({ depth, channels, data: [...data] }).toEqual({ depth: 16, channels: 3, data: [...deep.deep] });
  });

  it("[AP46] black and white goes into the file as one channel of the same tones", () => {
    const table = new ToneTable(mono, 65535);
    const { depth, channels, data } = decode(pictureFile({ picture: deep, mono }));
    const tones = [table.of(2570, 5141, 7710), table.of(65535, 32896, 1)];
    expect({ depth, channels, data: [...data] }).toEqual({ depth: 16, channels: 1, data: tones });
  });
});
