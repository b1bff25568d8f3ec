/** A plan typed in again from the words and numbers of its sheet alone, as somebody would who has only the paper. */
import { type LengthUnits, parseFStops, parseLength } from "../../units/index.ts";
import { textsOf, type WrittenText } from "./read-page.ts";
import {
  aimOf,
  backdropOf,
  boardOf,
  headOf,
  lightOf,
  looksOf,
  NUMBER,
  numbers,
  type Row,
  roomOf,
} from "./retype-things.ts";

const SAME_LINE = 0.3;

/** The fields of a plan file. `photometry` is the text of a file that the sheet names. */
export function retyped(pages: readonly string[], units: LengthUnits, photometry: unknown): object {
  const sheet = pages.map(textsOf);
  const all = sheet.flat();
  const length = (text: string) => parseLength(text.trim(), units);
  const [about] = all.filter(({ text }) => text.startsWith("Placement sheet"));
  const size = /room (.+) wide, (.+) deep, (.+) high$/.exec(about.text);
  const [wide, deep, high] = size === null ? [0, 0, 0] : size.slice(1).map(length);
  const rows = placeRows(sheet);
  const more = said(all, "To work it out again: what else is in the plan");
  const camera = cameraWords(all);

  const marks = new Map<string, readonly [number, number]>();
  const floor = ({ cells }: Row): [number, number] => {
    const walls = /^(left|right) wall (.+) (near|far) wall (.+)$/.exec(cells[1]);
    if (walls !== null) return fromWalls(walls, [wide, deep], length);
    return fromMark(cells[1], whoseMark(cells[3], marks), length);
  };
  const kinds = rows.map((row) => kindOf(row));
  const of = (kind: string) => rows.filter((_, i) => kinds[i] === kind);
  const people = of("person").map((row) => {
    const position = floor(row);
    marks.set(row.name, position);
    const [facing] = numbers(row.cells[5], `faces bearing ${NUMBER}°`);
    return {
      name: row.name,
      position,
      facing,
      ...(/seated, seat (.+)$/.test(row.cells[0])
        ? { pose: "seated", seatHeight: length(row.cells[0].replace(/^.*seat /, "")) }
        : {}),
      head: headOf(row.cells[6]),
    };
  });
  const aimed = (row: Row) => ({
    position: [...floor(row), length(row.cells[2])],
    ...aimOf(row.cells[5]),
  });

  const lines = [...more];
  const next = (kind?: string) => {
    if (kind !== undefined && !lines[0]?.startsWith(`${kind}:`)) return null;
    return (lines.shift() ?? "").replace(/^.*?: /, "");
  };
  const room =
    size === null ? null : { width: wide, depth: deep, height: high, ...roomOf(next("room") ?? "") };
  const ambient = numbers(next("ambient light") ?? "", `^${NUMBER} lx`);
  const lights = of("light").map((row) => lightOf(row, aimed(row), next() ?? "", units));
  const [backRow] = of("backdrop");
  const backdrop =
    backRow === undefined ? null : backdropOf(backRow, floor(backRow), next("backdrop") ?? "", length);
  const sitters = people.map((person) => ({ ...person, ...looksOf(next() ?? "", length) }));
  const readings = receptors(all);
  const meters = readings.map(({ name, receptor }) => {
    const words = next() ?? "";
    const [place, height, aim] = /^(.+), (\S.*?) high, (bearing .+)$/.exec(words)?.slice(1) ?? [];
    const walls = /^(left|right) wall (.+), (near|far) wall (.+)$/.exec(place);
    const spot =
      walls === null
        ? fromMark(place.replace(/ of (?:the mark|.*)$/, ""), whoseMark(place, marks), length)
        : fromWalls(walls, [wide, deep], length);
    const { direction } = aimOf(aim);
    return { name, position: [...spot, length(height)], direction, receptor };
  });
  const [headroom] = numbers(next("camera") ?? "", `clips ${NUMBER} stops`);

  return {
    format: "tapemark/plan",
    version: 1,
    title: all[0].text,
    room,
    ...(ambient.length > 0 ? { ambient: { lux: ambient[0] } } : {}),
    lights,
    ...(photometry === undefined ? {} : { photometry }),
    backdrop,
    panels: of("panel").map((row) => ({ name: row.name, ...aimed(row), ...boardOf(row.cells[0], length) })),
    people: sitters,
    camera: { ...aimed(of("camera")[0]), ...camera, headroom },
    meters,
  };
}

/** Rows of the table of places, on whatever pages it runs. */
function placeRows(sheet: readonly (readonly WrittenText[])[]): Row[] {
  return sheet.flatMap((texts) => {
    const from = texts.findIndex(({ text }) => text === "Where everything stands");
    if (from < 0) return [];
    const heads = texts.slice(from + 1, from + 7);
    const columns = [texts[from].box.x0, ...heads.map(({ box }) => box.x0)];
    const end = texts.slice(from + 7).findIndex(({ size }) => size !== 3);
    const body = texts.slice(from + 7, end < 0 ? undefined : from + 7 + end);
    const rows: { name: string; cells: string[] }[] = [];
    let wasName = false;
    for (const { text, weight, box } of body) {
      const column = columns.findLastIndex((x) => box.x0 > x - 0.1);
      const isName = column === 0 && weight === 600;
      if (isName && !wasName) rows.push({ name: text, cells: columns.map(() => "") });
      else {
        const row = rows[rows.length - 1];
        if (isName) row.name += ` ${text}`;
        else row.cells[column] = `${row.cells[column]} ${text}`.trim();
      }
      wasName = isName;
    }
    return rows;
  });
}

function kindOf({ name, cells }: Row): string {
  if (cells[0].startsWith("mark, ")) return "person";
  if (cells[0] === "tape on the floor") return "mark";
  if (cells[0] === "to the lens") return "camera";
  if (/^(paper|cove)$/.test(name) && cells[0].endsWith(" wide")) return "backdrop";
  return / back(,|$)/.test(cells[0]) ? "panel" : "light";
}

/** A paragraph under a heading, taken apart. */
function said(texts: readonly WrittenText[], heading: string): string[] {
  const from = texts.findIndex(({ text }) => text === heading);
  const end = texts.slice(from + 1).findIndex(({ size }) => size !== 3);
  const words = texts.slice(from + 1, end < 0 ? undefined : from + 1 + end).map(({ text }) => text);
  return words.join(" ").split(" · ");
}

function fromWalls(
  [, side, across, depth, along]: readonly string[],
  [wide, deep]: readonly [number, number],
  length: (text: string) => number,
): [number, number] {
  const [x, y] = [length(across), length(along)];
  return [side === "left" ? x : wide - x, depth === "near" ? y : deep - y];
}

function whoseMark(
  words: string,
  marks: ReadonlyMap<string, readonly [number, number]>,
): readonly [number, number] {
  const named = [...marks].find(([name]) => words.includes(`${name}'s mark`));
  // "mark" alone is that of whoever is named before it, or the only one
  const before = [...marks].find(([name]) => words.includes(`${name} mark`));
  return (named ?? before ?? [...marks][0])?.[1] ?? [0, 0];
}

/** "0.75 m right 0.90 m to the camera side" from a mark. */
function fromMark(
  words: string,
  [x, y]: readonly [number, number],
  length: (text: string) => number,
): [number, number] {
  const amount = (pattern: RegExp) => {
    const found = pattern.exec(words.replace(",", ""));
    return found === null ? 0 : length(found[1]);
  };
  const number = "([\\d.]+ m|\\d+′ [\\d¼½¾]+″)";
  const right = amount(new RegExp(`${number} right`)) - amount(new RegExp(`${number} left`));
  const into = amount(new RegExp(`${number} into`)) - amount(new RegExp(`${number} to the camera`));
  return [x + right, y + into];
}

/** Name and receptor of each meter, from the table of what they should read. */
function receptors(texts: readonly WrittenText[]): { name: string; receptor: string }[] {
  const from = texts.findIndex(({ text }) => text.startsWith("What the meters should read"));
  if (from < 0) return [];
  return texts.slice(from).flatMap(({ text, box }, i, rest) => {
    const receptor = /^(flat|dome|spot), /.exec(text)?.[1];
    if (receptor === undefined) return [];
    const name = rest.find((other) => Math.abs(other.box.y1 - box.y1) < SAME_LINE && other.box.x0 < box.x0);
    return [{ name: name?.text ?? `meter ${i}`, receptor }];
  });
}

/** The camera's own table, label by label; a value may run over several lines. */
function cameraWords(texts: readonly WrittenText[]) {
  const value = (label: string) => {
    const head = texts.findIndex(({ text }) => text === label);
    if (head < 0) return "";
    const words: string[] = [];
    for (const { text, box } of texts.slice(head + 1)) {
      if (box.x0 <= texts[head].box.x0 + 1) break;
      words.push(text);
    }
    return words.join(" ");
  };
  const set = /^([\d.]+) mm, (f\/[\d.]+(?: \+ 0\.\d)?), (.+), ISO (\d+)$/.exec(value("set to")) ?? [];
  const [, way, wide, high] = /^(\w+), sensor ([\d.]+) × ([\d.]+) mm$/.exec(value("held")) ?? [];
  return {
    focalLength: Number(set[1]),
    fNumber: parseFStops(set[2]),
    shutter: shutterOf(set[3]),
    iso: Number(set[4]),
    whiteBalance: Number.parseFloat(value("white at")),
    orientation: way,
    sensor: { width: Number(wide), height: Number(high) },
  };
}

function shutterOf(words: string): number {
  const part = /^1\/(\d+)$/.exec(words);
  return part === null ? Number.parseFloat(words) : 1 / Number(part[1]);
}
