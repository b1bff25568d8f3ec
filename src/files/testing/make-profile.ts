/** ICC profiles for tests: curves and a matrix, as bytes. */

/** "power": one exponent; "points": a table; "srgb": the standard's curve in parametric form. */
export type MadeCurve =
  | { readonly kind: "power"; readonly exponent: number }
  | { readonly kind: "points"; readonly points: readonly number[] }
  | { readonly kind: "srgb" };

export interface MadeProfile {
  readonly name: string;
  /** XYZ at D50 of red, green and blue; none for grey */
  readonly colours?: readonly (readonly number[])[];
  readonly curve: MadeCurve;
  /** further tags, as they are: "A2B0" and the like */
  readonly more?: Readonly<Record<string, Uint8Array>>;
}

export function makeProfile({ name, colours, curve, more = {} }: MadeProfile): Buffer {
  const tags: [string, Uint8Array][] = [["desc", textTag(name)]];
  for (const [i, letter] of ["r", "g", "b"].entries()) {
    if (!colours) break;
    tags.push([`${letter}XYZ`, xyzTag(colours[i])], [`${letter}TRC`, curveTag(curve)]);
  }
  if (!colours) tags.push(["kTRC", curveTag(curve)]);
  tags.push(["wtpt", xyzTag([0.9642, 1, 0.8249])], ...Object.entries(more));
  const table = Buffer.alloc(4 + 12 * tags.length);
  table.writeUInt32BE(tags.length, 0);
  const body: Uint8Array[] = [];
  let at = 128 + table.length;
  for (const [i, [tag, bytes]] of tags.entries()) {
    table.write(tag, 4 + 12 * i, "latin1");
    table.writeUInt32BE(at, 8 + 12 * i);
    table.writeUInt32BE(bytes.length, 12 + 12 * i);
    body.push(bytes);
    at += bytes.length;
  }
  const head = Buffer.alloc(128);
  head.writeUInt32BE(at, 0);
  head.write("\x02\x40\0\0", 8, "latin1");
  head.write(`mntr${colours ? "RGB " : "GRAY"}XYZ `, 12, "latin1");
  head.write("acsp", 36, "latin1");
  for (const [i, value] of [0.9642, 1, 0.8249].entries()) head.writeInt32BE(fixed(value), 68 + 4 * i);
  return Buffer.concat([head, table, ...body]);
}

const fixed = (value: number) => Math.round(value * 65536);

function xyzTag(values: readonly number[]): Buffer {
  const tag = Buffer.alloc(20);
  tag.write("XYZ ", 0, "latin1");
  for (const [i, value] of values.entries()) tag.writeInt32BE(fixed(value), 8 + 4 * i);
  return tag;
}

/** Version 2's "desc". */
function textTag(text: string): Buffer {
  const tag = Buffer.alloc(4 * Math.ceil((90 + text.length + 1) / 4));
  tag.write("desc", 0, "latin1");
  tag.writeUInt32BE(text.length + 1, 8);
  tag.write(text, 12, "latin1");
  return tag;
}

function curveTag(curve: MadeCurve): Buffer {
  if (curve.kind === "srgb") {
    const tag = Buffer.alloc(32);
    tag.write("para", 0, "latin1");
    tag.writeUInt16BE(3, 8);
    const values = [2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045];
    for (const [i, value] of values.entries()) tag.writeInt32BE(fixed(value), 12 + 4 * i);
    return tag;
  }
  const points = curve.kind === "power" ? [curve.exponent * 256] : curve.points.map((value) => value * 65535);
  const tag = Buffer.alloc(4 * Math.ceil((12 + 2 * points.length) / 4));
  tag.write("curv", 0, "latin1");
  tag.writeUInt32BE(points.length, 8);
  for (const [i, value] of points.entries()) tag.writeUInt16BE(Math.round(value), 12 + 2 * i);
  return tag;
}
