/** A face that is small in the working copy of a large photograph, found again in the file's own pixels. */
import type { FaceFinder, FoundFace, Photograph, PixelBox } from "./types.ts";

/** Width in the working copy under which it is worth it: landmarks are found on 192 pixels across one and a half faces, and
 * twice of that tells no more. */
const SMALL = 250;
/** By so much the file must be larger than its working copy. */
const LARGER = 1.2;
/** What is looked through, in widths of the face. */
const ROOM = 2;
/** Pixels of it on the longer side. */
const LONG_SIDE = 800;

/** In pixels of the working copy, as `face` is; `face` itself where nothing better is found. */
export async function foundNear(photo: Photograph, face: FoundFace, finder: FaceFinder): Promise<FoundFace> {
  const grown = photo.width / photo.picture.width;
  if (face.box.width >= SMALL || grown < LARGER) return face;
  const part = roundBox(photo, moved(face.box, grown, 0, 0));
  const crop = photo.crop(part, LONG_SIDE);
  const scale = part.width / crop.width / grown;
  const [left, top] = [part.left / grown, part.top / grown];
  for (const again of await finder.find(crop)) {
    const box = moved(again.box, scale, left, top);
    if (!isSame(box, face.box)) continue;
    const points = again.points.map((at, i) => scale * at + [left, top, 0][i % 3]);
    return { ...again, points, box, isLifted: face.isLifted || again.isLifted };
  }
  return face;
}

/** A square of whole pixels round the middle of the box, cut at the picture's edges. */
function roundBox(photo: Photograph, { left, top, width, height }: PixelBox): PixelBox {
  const half = (ROOM * Math.max(width, height)) / 2;
  const span = (middle: number, most: number) => {
    const from = Math.max(0, Math.floor(middle - half));
    return [from, Math.min(most, Math.ceil(middle + half)) - from];
  };
  const [x, wide] = span(left + width / 2, photo.width);
  const [y, high] = span(top + height / 2, photo.height);
  return { left: x, top: y, width: wide, height: high };
}

export function moved(box: PixelBox, scale: number, left: number, top: number): PixelBox {
  return {
    left: scale * box.left + left,
    top: scale * box.top + top,
    width: scale * box.width,
    height: scale * box.height,
  };
}

/** The middle of one lies in the inner half of the other. */
function isSame(a: PixelBox, b: PixelBox): boolean {
  const aside = a.left + a.width / 2 - b.left - b.width / 2;
  const down = a.top + a.height / 2 - b.top - b.height / 2;
  return Math.abs(aside) < b.width / 4 && Math.abs(down) < b.height / 4;
}
