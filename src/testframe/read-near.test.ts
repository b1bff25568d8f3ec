import { describe, expect, it } from "vitest";
import { foundNear } from "./read-near.ts";
import type { FoundFace, LinearPicture, Photograph, PixelBox } from "./types.ts";

const plain = (width: number, height: number): LinearPicture => ({
  width,
  height,
  rgb: new Float32Array(3 * width * height),
});

/** A photograph of `width` x half of it, and what of it was looked at. */
function photograph(width: number): Photograph & { readonly looked: PixelBox[] } {
  const looked: PixelBox[] = [];
  const crop = (box: PixelBox, longSide: number) => {
    looked.push(box);
    const scale = Math.min(1, longSide / Math.max(box.width, box.height));
    return plain(Math.round(scale * box.width), Math.round(scale * box.height));
  };
  const picture = plain(Math.min(1600, width), Math.min(1600, width) / 2);
  return { width, height: width / 2, picture, crop, looked } as unknown as Photograph & {
    looked: PixelBox[];
  };
}

function face(box: PixelBox): FoundFace {
  const middle = [box.left + box.width / 2, box.top + box.height / 2, box.width];
  return { points: Float32Array.from(middle), box, score: 1, isLifted: false };
}

/** Sees one face in the middle of whatever it is shown, half as large, and one in the corner. */
const finder = {
  async find({ width, height }: LinearPicture) {
    const box = { left: width / 4, top: height / 4, width: width / 2, height: height / 2 };
    return [face({ left: 0, top: 0, width: 9, height: 9 }), face(box)];
  },
};

describe("[DK11] a small face of a large photograph is found again in the file's own pixels", () => {
  const box = { left: 400, top: 300, width: 100, height: 100 };
  it("and told in pixels of the working copy", async () => {
    const photo = photograph(6400);
    const again = await foundNear(photo, face(box), finder);
    expect(photo.looked).toEqual([{ left: 1600, top: 1200, width: 400, height: 400 }].map(grown));
    expect(again.box).toEqual(box);
    expect([...again.points]).toEqual([450, 350, 100]);
  });
  it("at the picture's edge what lies beyond is left out", async () => {
    const photo = photograph(6400);
    const edge = { left: 0, top: 0, width: 100, height: 100 };
    const found = face(edge);
    // what stands in the middle of the crop lies elsewhere: the first finding stays
    expect(await foundNear(photo, found, { find: async () => [] })).toBe(found);
    expect(photo.looked).toEqual([{ left: 0, top: 0, width: 600, height: 600 }]);
  });
  it.each([
    ["a large one", 6400, { ...box, width: 260 }],
    ["one in a small file", 1600, box],
  ])("%s is not looked for again", async (_, width, large) => {
    const photo = photograph(width);
    const found = face(large);
    expect(await foundNear(photo, found, finder)).toBe(found);
    expect(photo.looked).toEqual([]);
  });
});

/** Twice as large, round the same middle. */
function grown({ left, top, width, height }: PixelBox): PixelBox {
  return { left: left - width / 2, top: top - height / 2, width: 2 * width, height: 2 * height };
}
