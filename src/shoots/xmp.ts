/** Stars and selects in an XMP sidecar, as other programs read them, merged with what they wrote there.
 * Source  ISO 16684-1:2019 (XMP): 7 serialization, 8.4 the XMP namespace (Rating -1 to 5, Label) */
import { DOMParser, type Document, type Element, XMLSerializer } from "@xmldom/xmldom";
import { addProperty, NS, propertiesOf, removeProperty, textOf, writeValue } from "./xmp-rdf.ts";

/** What was picked, as it is written down for others. */
export interface XmpPick {
  readonly stars: number;
  readonly isSelect: boolean;
}

/** What a select is labelled, where nobody else's label stands. */
const SELECT_LABEL = "Select";

/** A sidecar that is none, or that is damaged: what is wrong with it. It is left as it is. */
export class XmpError extends Error {
  constructor(readonly problem: string) {
    super(problem);
    this.name = "XmpError";
  }
}

/** The sidecar's text with the pick in it. What was written here before is kept beside it under a name of its own, so that
 * a rating or a label that somebody else gave since, or gave to what has none here, stays.
 * Domain  existing: the file's characters, without a byte order mark; null where there is no file. stars 0 to 5
 * Returns `existing` itself where nothing changes; "" where there is nothing to write
 * Errors  XmpError where it is no XMP or not well formed */
export function mergeXmp(existing: string | null, pick: XmpPick): string {
  if (existing === null) return pick.stars === 0 && !pick.isSelect ? "" : newXmp(pick);
  const document = parse(existing);
  const rdf = rdfOf(document);
  const descriptions = childrenNamed(rdf, "Description");
  const isChanged = [
    putRating(document, descriptions, pick.stars),
    putLabel(document, descriptions, pick.isSelect),
  ].some((each) => each);
  return isChanged ? written(document) : existing;
}

/** Not well formed is not read at all: what a lenient reader leaves out would be lost when it is written again. */
function parse(text: string): Document {
  // no program needs one in XMP, and an entity can grow without bound
  if (/<!DOCTYPE/i.test(text)) throw new XmpError("it has a document type, which XMP has not");
  if (BARE_AMPERSAND.test(text.replace(NOT_MARKUP, "")))
    throw new XmpError('it is damaged: a "&" that begins no entity');
  try {
    const stop = (_level: string, message: string) => {
      throw new Error(message.split("\n")[0]);
    };
    return new DOMParser({ onError: stop, locator: false, normalizeLineEndings }).parseFromString(
      text,
      "text/xml",
    );
  } catch (error) {
    throw new XmpError(`it is damaged: ${error instanceof Error ? error.message : String(error)}`);
  }
}

/** As XML 1.0 has it (2.11): other characters that end a line are characters. */
function normalizeLineEndings(text: string): string {
  return text.replace(/\r\n?/g, "\n");
}

/** A carriage return that is left was told as a character, and written bare it would be the end of a line. */
function written(document: Document): string {
  return new XMLSerializer().serializeToString(document).replaceAll("\r", "&#13;");
}

/** Comments, instructions and character data, where anything may stand. */
const NOT_MARKUP = /<!--[\s\S]*?-->|<!\[CDATA\[[\s\S]*?\]\]>|<\?[\s\S]*?\?>/g;
/** The parser takes one for itself. */
const BARE_AMPERSAND = /&(?!(?:amp|lt|gt|quot|apos|#\d+|#x[\da-f]+);)/i;

/** Below the optional outer element, or at the root. */
function rdfOf(document: Document): Element {
  const root = document.documentElement;
  const isRdf = (element: Element) => element.namespaceURI === NS.rdf && element.localName === "RDF";
  if (root !== null && isRdf(root)) return root;
  const [inner] = root === null ? [] : childrenNamed(root, "RDF");
  if (inner === undefined) throw new XmpError("it has no rdf:RDF, so that it is no XMP");
  if (childrenNamed(inner, "Description").length > 0) return inner;
  const empty = document.createElementNS(NS.rdf, `${inner.prefix ?? "rdf"}:Description`);
  empty.setAttributeNS(NS.rdf, `${inner.prefix ?? "rdf"}:about`, "");
  inner.appendChild(empty);
  return inner;
}

function childrenNamed(element: Element, localName: string): Element[] {
  return [...element.childNodes].filter(
    (node): node is Element =>
      node.nodeType === node.ELEMENT_NODE &&
      (node as Element).namespaceURI === NS.rdf &&
      (node as Element).localName === localName,
  );
}

/** A rating that somebody else gave since it was last written here is theirs; one that is changed here since is ours. */
function putRating(document: Document, descriptions: readonly Element[], stars: number): boolean {
  const before = Number(ownText(descriptions, "Stars") ?? "0");
  if (stars === before) return false;
  put(document, descriptions, NS.xmp, "xmp", "Rating", String(stars));
  put(document, descriptions, NS.own, "tapemark", "Stars", String(stars));
  return true;
}

/** A label of somebody else's stays, and so does one that only reads like ours. */
function putLabel(document: Document, descriptions: readonly Element[], isSelect: boolean): boolean {
  const wasOurs = ownText(descriptions, "Select") === "True";
  const labels = propertiesOf(descriptions, NS.xmp, "Label");
  const label = labels[0] === undefined ? null : textOf(labels[0]);
  if (isSelect === wasOurs) return false;
  if (isSelect) {
    if (label !== null && label !== "") return false;
    put(document, descriptions, NS.xmp, "xmp", "Label", SELECT_LABEL);
    put(document, descriptions, NS.own, "tapemark", "Select", "True");
    return true;
  }
  if (label === SELECT_LABEL) for (const each of labels) removeProperty(each);
  for (const each of propertiesOf(descriptions, NS.own, "Select")) removeProperty(each);
  return true;
}

function ownText(descriptions: readonly Element[], localName: string): string | null {
  const [own] = propertiesOf(descriptions, NS.own, localName);
  return own === undefined ? null : textOf(own);
}

function put(
  document: Document,
  descriptions: readonly Element[],
  namespace: string,
  prefix: string,
  localName: string,
  value: string,
): void {
  const there = propertiesOf(descriptions, namespace, localName);
  for (const property of there) writeValue(property, value);
  const [first] = descriptions;
  if (there.length === 0 && first !== undefined)
    addProperty(document, first, namespace, prefix, localName, value);
}

/** A packet as the standard has it, without padding: a sidecar is written anew, never in place. */
function newXmp({ isSelect, stars }: XmpPick): string {
  const lines = [
    ...(stars === 0
      ? []
      : [`<xmp:Rating>${stars}</xmp:Rating>`, `<tapemark:Stars>${stars}</tapemark:Stars>`]),
    ...(isSelect
      ? [`<xmp:Label>${SELECT_LABEL}</xmp:Label>`, "<tapemark:Select>True</tapemark:Select>"]
      : []),
  ];
  return [
    '<?xpacket begin="\uFEFF" id="W5M0MpCehiHzreSzNTczkc9d"?>',
    '<x:xmpmeta xmlns:x="adobe:ns:meta/">',
    `  <rdf:RDF xmlns:rdf="${NS.rdf}">`,
    `    <rdf:Description rdf:about="" xmlns:xmp="${NS.xmp}" xmlns:tapemark="${NS.own}">`,
    ...lines.map((line) => `      ${line}`),
    "    </rdf:Description>",
    "  </rdf:RDF>",
    "</x:xmpmeta>",
    '<?xpacket end="w"?>',
    "",
  ].join("\n");
}
