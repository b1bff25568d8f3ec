/** The guide's pages as they are written (docs/guide): the little of Markdown that they use, read into plain parts. */

export type Inline =
  | { readonly kind: "text"; readonly text: string }
  | { readonly kind: "strong"; readonly text: string }
  | { readonly kind: "code"; readonly text: string }
  | { readonly kind: "link"; readonly text: string; readonly to: string };

export type Block =
  | { readonly kind: "heading"; readonly id: string; readonly text: string }
  | { readonly kind: "paragraph"; readonly parts: readonly Inline[] }
  | { readonly kind: "list"; readonly isOrdered: boolean; readonly items: readonly (readonly Inline[])[] }
  | {
      readonly kind: "table";
      readonly head: readonly (readonly Inline[])[];
      readonly rows: readonly (readonly (readonly Inline[])[])[];
    }
  | { readonly kind: "picture"; readonly file: string; readonly says: string }
  | { readonly kind: "code"; readonly text: string };

export interface GuideText {
  readonly title: string;
  readonly blocks: readonly Block[];
}

const PICTURE = /^!\[([^\]]*)\]\(([^)]+)\)$/;
const ITEM = /^(?:- |\d+\. )/;
const INLINE = /\*\*([^*]+)\*\*|`([^`]+)`|\[([^\]]+)\]\(([^)\s]+)\)/g;

/** Errors  Error where there is no title, or a fence is not closed: pages are part of the program, and a test reads them all */
export function guideText(source: string): GuideText {
  const lines = source.split("\n");
  const [first = "", ...rest] = lines;
  if (!first.startsWith("# ")) throw new Error(`a page of the guide begins with its title, not "${first}"`);
  const blocks: Block[] = [];
  for (let at = 0; at < rest.length; ) {
    const line = rest[at];
    if (line === "") {
      at++;
      continue;
    }
    if (line.startsWith("```")) {
      const end = rest.indexOf("```", at + 1);
      if (end < 0) throw new Error(`"${line}" is not closed`);
      blocks.push({ kind: "code", text: rest.slice(at + 1, end).join("\n") });
      at = end + 1;
      continue;
    }
    let end = at;
    while (end < rest.length && rest[end] !== "") end++;
    blocks.push(blockOf(rest.slice(at, end)));
    at = end;
  }
  return { title: first.slice(2), blocks };
}

/** Lines that stand together. */
function blockOf(lines: readonly string[]): Block {
  const [first] = lines;
  if (first.startsWith("## ")) {
    const text = first.slice(3);
    return { kind: "heading", id: idOf(text), text };
  }
  const picture = PICTURE.exec(lines.join(" "));
  if (picture !== null) return { kind: "picture", file: picture[2], says: picture[1] };
  if (first.startsWith("|")) {
    const [head, , ...rows] = lines.map(cellsOf);
    return { kind: "table", head: head ?? [], rows };
  }
  if (ITEM.test(first)) return { kind: "list", isOrdered: !first.startsWith("- "), items: itemsOf(lines) };
  return { kind: "paragraph", parts: inlineOf(lines.join(" ")) };
}

function cellsOf(line: string): (readonly Inline[])[] {
  return line
    .replace(/^\||\|$/g, "")
    .split("|")
    .map((cell) => inlineOf(cell.trim()));
}

/** An item goes on over the lines that are indented beneath it. */
function itemsOf(lines: readonly string[]): (readonly Inline[])[] {
  const items: string[] = [];
  for (const line of lines) {
    if (ITEM.test(line)) items.push(line.replace(ITEM, ""));
    else items.push(`${items.pop() ?? ""} ${line.trim()}`);
  }
  return items.map(inlineOf);
}

export function inlineOf(text: string): readonly Inline[] {
  const parts: Inline[] = [];
  let at = 0;
  for (const match of text.matchAll(INLINE)) {
    if (match.index > at) parts.push({ kind: "text", text: text.slice(at, match.index) });
    const [whole, strong, code, link, to] = match;
    if (strong !== undefined) parts.push({ kind: "strong", text: strong });
    else if (code !== undefined) parts.push({ kind: "code", text: code });
    else if (link !== undefined && to !== undefined) parts.push({ kind: "link", text: link, to });
    at = match.index + whole.length;
  }
  if (at < text.length) parts.push({ kind: "text", text: text.slice(at) });
  return parts;
}

/** As a link names a heading: "#how-sure", as hosts of Markdown make it. */
export function idOf(heading: string): string {
  return heading
    .toLowerCase()
    .replace(/[^\p{L}\p{N} -]/gu, "")
    .replaceAll(" ", "-");
}
