/** A linear frame as a portable float map: "PF", width and height, -1.0 for little endian, then the rows from
 * the bottom up, three 32-bit floats a pixel.
 * Shape   luminance: rgb a pixel, top row first, width x height x 3
 * Units   as given; the frame of a plan is in cd.s/m2
 * Errors  RangeError where the array does not fit the size */
export function encodePfm(frame: {
  readonly width: number;
  readonly height: number;
  readonly luminance: Float32Array;
}): Uint8Array {
  const { width, height, luminance } = frame;
  const rowLength = 3 * width;
  if (luminance.length !== rowLength * height)
    throw new RangeError(
      `a frame of ${width} x ${height} needs ${rowLength * height} values, not ${luminance.length}`,
    );
  const header = Uint8Array.from(`PF\n${width} ${height}\n-1.0\n`, (c) => c.charCodeAt(0));
  const bytes = new Uint8Array(header.length + 4 * luminance.length);
  bytes.set(header);
  const view = new DataView(bytes.buffer, header.length);
  for (let row = 0; row < height; row++) {
    const from = (height - 1 - row) * rowLength;
    for (let i = 0; i < rowLength; i++) view.setFloat32(4 * (row * rowLength + i), luminance[from + i], true);
  }
  return bytes;
}
