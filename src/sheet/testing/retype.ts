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
  const sizes = all.flatMap(({ text }) => {
    const size = /(?:^|· )room (.+) wide, (.+) deep, (.+) high$/.exec(text);
    return size === null ? [] : [size.slice(1).map(length)];
  });
  const [[wide, deep, high]] = [...sizes, [0, 0, 0]];
  const full = fullNames(all);
  const rows = [
    ...tableRows(sheet, "People: their marks and faces", 5),
    ...tableRows(sheet, "Where everything stands", 6),
  ].map((row) => ({ ...row, name: full(row.name) }));
  const more = said(all, "To work it out again: what else is in the plan");
  const camera = cameraWords(all);

  const marks = new Map<string, readonly [number, number]>();
  const floor = ({ cells }: Row): [number, number] => {
    const spot = cells[1].replace(/ nose .*$/, "");
    const walls = /^(left|right) wall (.+) (near|far) wall (.+)$/.exec(spot);
    if (walls !== null) return fromWalls(walls, [wide, deep], length);
    return fromMark(spot, whoseMark(`${cells[4]} ${cells[3]}`, marks), length);
  };
  const kinds = rows.map(kindOf);
  const of = (kind: string) => rows.filter((_, i) => kinds[i] === kind);
  const people = of("person").map((row) => {
    const position = floor(row);
    marks.set(row.name, position);
    const words = row.cells.join(" ");
    const [facing] = numbers(words, `faces bearing ${NUMBER}°`);
    return {
      name: row.name,
      position,
      facing,
      ...(/seated, seat (.+)$/.test(row.cells[0])
        ? { pose: "seated", seatHeight: length(row.cells[0].replace(/^.*seat /, "")) }
        : {}),
      head: headOf(words),
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
  /** What is said of each: those who are the same in everything are told together. */
  const ofEach = (names: readonly string[]): string[] => {
    const found = new Map<string, string>();
    while (names.some((name) => !found.has(name))) {
      let line = lines.shift() ?? "";
      const named: string[] = [];
      for (const name of names) {
        const end = found.has(name) ? null : begunWith(line, name);
        if (end === null) continue;
        named.push(name);
        line = line.slice(end);
      }
      if (named.length === 0) break;
      for (const name of named) found.set(name, line);
    }
    return names.map((name) => found.get(name) ?? "");
  };
  const room =
    sizes.length === 0 ? null : { width: wide, depth: deep, height: high, ...roomOf(next("room") ?? "") };
  const ambient = numbers(next("ambient light") ?? "", `^${NUMBER} lx`);
  const heads = of("light");
  const beams = ofEach(heads.map(({ name }) => name));
  const lights = heads.map((row, i) => lightOf(row, aimed(row), beams[i], units));
  const [backRow] = of("backdrop");
  const backdrop =
    backRow === undefined ? null : backdropOf(backRow, floor(backRow), next("backdrop") ?? "", length);
  const looks = ofEach(people.map(({ name }) => name));
  const sitters = people.map((person, i) => ({ ...person, ...looksOf(looks[i], length) }));
  const readings = receptors(all).map(({ name, receptor }) => ({ name: full(name), receptor }));
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
    title: full(titleOf(sheet[0])),
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

/** The larger letters over everything, on one line or two. */
function titleOf(texts: readonly WrittenText[]): string {
  const [{ size }] = texts;
  return texts
    .filter((each) => each.size === size)
    .map(({ text }) => text)
    .join(" ");
}

/** How much of a line its beginning with that name takes, letters that a line broke anywhere put together again; null where
 * it is another's. */
function begunWith(line: string, name: string): number | null {
  const signs = [...name.replaceAll(" ", "")].map((sign) => sign.replace(/[.*+?^${}()|[\]\\]/g, "\\$&"));
  return new RegExp(`^\\s*${signs.join("\\s*")}\\s*[,:] `, "u").exec(line)?.[0].length ?? null;
}

/** From a name as a table shortens it to the one that is printed in full. */
function fullNames(texts: readonly WrittenText[]): (name: string) => string {
  const from = texts.findIndex(({ text }) => text === "Names in full");
  const names: string[] = [];
  let before = "";
  for (const { text, size } of from < 0 ? [] : texts.slice(from + 1)) {
    if (size !== 3) break;
    const last = names.length - 1;
    if (text === "–") names.push("");
    // a line of one word may have been broken anywhere
    else names[last] += names[last] === "" || !before.includes(" ") ? text : ` ${text}`;
    before = text;
  }
  const bare = (name: string) => name.replaceAll(" ", "");
  return (name) => {
    if (!name.endsWith("…")) return name;
    return names.find((each) => bare(each).startsWith(bare(name.slice(0, -1)))) ?? name;
  };
}

/** Rows of a table, on whatever pages it runs; so many heads stand over it. */
function tableRows(sheet: readonly (readonly WrittenText[])[], title: string, count: number): Row[] {
  return sheet.flatMap((texts) => {
    const from = texts.findIndex(({ text }) => text === title);
    if (from < 0) return [];
    const after = texts.slice(from + 1);
    const begin = after.findIndex(({ size }) => size === 3);
    // a head that takes two lines stands twice in its column
    const lefts = [...new Set(after.slice(0, begin).map(({ box }) => box.x0))].slice(0, count);
    const columns = [texts[from].box.x0, ...lefts];
    const end = after.slice(begin).findIndex(({ size }) => size !== 3);
    const body = after.slice(begin, end < 0 ? undefined : begin + end);
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
  if (/^(mark, )?(standing|seated, seat)/.test(cells[0])) return "person";
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
  const before = [...marks].find(([name]) => words.startsWith(`${name}:`));
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
    const name = rest.findIndex(
      (other) => Math.abs(other.box.y1 - box.y1) < SAME_LINE && other.box.x0 < box.x0,
    );
    const second = rest[name + 1];
    const more = second?.weight === 600 && second.box.x0 === rest[name]?.box.x0 ? ` ${second.text}` : "";
    return [{ name: name < 0 ? `meter ${i}` : `${rest[name].text}${more}`, receptor }];
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
