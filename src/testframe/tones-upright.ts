/** From rows as a file stores them to the picture as it is looked at. */
import type { FilePixels, Orientation } from "./tones-pixels.ts";
import type { LinearPicture, PixelBox } from "./types.ts";

const swaps = (orientation: Orientation) => orientation >= 5;

export function uprightSize({ width, height, orientation }: FilePixels): { width: number; height: number } {
  return swaps(orientation) ? { width: height, height: width } : { width, height };
}

/** Where the upright pixel (x, y) is stored, in a picture stored `width` x `height`. Exif 2.32, tag 274. */
function storedPlace(x: number, y: number, width: number, height: number, orientation: Orientation) {
  const [column, row] = swaps(orientation) ? [y, x] : [x, y];
  const isFlippedAcross = [2, 3, 7, 8].includes(orientation);
  const isFlippedDown = [3, 4, 6, 7].includes(orientation);
  return { x: isFlippedAcross ? width - 1 - column : column, y: isFlippedDown ? height - 1 - row : row };
}

/** A box of the upright picture among the stored rows. */
export function storedBox({ width, height, orientation }: FilePixels, box: PixelBox): PixelBox {
  const a = storedPlace(box.left, box.top, width, height, orientation);
  const b = storedPlace(box.left + box.width - 1, box.top + box.height - 1, width, height, orientation);
  return {
    left: Math.min(a.x, b.x),
    top: Math.min(a.y, b.y),
    width: Math.abs(a.x - b.x) + 1,
    height: Math.abs(a.y - b.y) + 1,
  };
}

/** A small picture and its map, turned upright. */
export function uprightPicture(
  stored: LinearPicture,
  clippedShare: Uint8Array,
  orientation: Orientation,
): { picture: LinearPicture; clippedShare: Uint8Array } {
  if (orientation === 1) return { picture: stored, clippedShare };
  const { width, height } = stored;
  const across = swaps(orientation) ? height : width;
  const down = swaps(orientation) ? width : height;
  const rgb = new Float32Array(stored.rgb.length);
  const shares = new Uint8Array(clippedShare.length);
  for (let y = 0; y < down; y++)
    for (let x = 0; x < across; x++) {
      const place = storedPlace(x, y, width, height, orientation);
      const from = place.y * width + place.x;
      const to = y * across + x;
      rgb[3 * to] = stored.rgb[3 * from];
      rgb[3 * to + 1] = stored.rgb[3 * from + 1];
      rgb[3 * to + 2] = stored.rgb[3 * from + 2];
      shares[to] = clippedShare[from];
    }
  return { picture: { width: across, height: down, rgb }, clippedShare: shares };
}
