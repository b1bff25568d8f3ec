/** A sidecar's bytes as characters and back, in the encoding that it has. */
import { XmpError } from "../shoots/xmp.ts";

export interface SidecarText {
  /** without its byte order mark */
  readonly text: string;
  readonly encoding: Encoding;
  readonly hasMark: boolean;
}

type Encoding = "utf-8" | "utf-16le" | "utf-16be";

/** XMP is Unicode: UTF-8, or UTF-16 either way round.
 * Errors  XmpError where the bytes are none of these
 * Source  ISO 16684-1:2019, 7.1; XML 1.0, appendix F */
export function decodeSidecar(bytes: Uint8Array): SidecarText {
  const encoding = encodingOf(bytes);
  const hasMark = markOf(encoding).every((byte, i) => bytes[i] === byte);
  try {
    const text = new TextDecoder(encoding, { fatal: true }).decode(bytes);
    if (text.includes("\0")) throw new XmpError("it is no text: it has characters that are none");
    demandUnicode(text);
    return { text, encoding, hasMark };
  } catch (error) {
    if (error instanceof XmpError) throw error;
    throw new XmpError(`it is damaged: its bytes are not ${encoding.toUpperCase()}`);
  }
}

export function encodeSidecar({ encoding, hasMark, text }: SidecarText): Uint8Array {
  const mark = hasMark ? markOf(encoding) : [];
  if (encoding === "utf-8") return Buffer.concat([Uint8Array.from(mark), new TextEncoder().encode(text)]);
  const out = new Uint8Array(mark.length + 2 * text.length);
  out.set(mark);
  const view = new DataView(out.buffer, mark.length);
  for (let i = 0; i < text.length; i++) view.setUint16(2 * i, text.charCodeAt(i), encoding === "utf-16le");
  return out;
}

/** By its mark; without one by the first character, which is never beyond ASCII in XML. */
function encodingOf([a, b]: Uint8Array): Encoding {
  if ((a === 0xff && b === 0xfe) || (a !== 0 && b === 0)) return "utf-16le";
  if ((a === 0xfe && b === 0xff) || (a === 0 && b !== 0)) return "utf-16be";
  return "utf-8";
}

function markOf(encoding: Encoding): readonly number[] {
  if (encoding === "utf-8") return [0xef, 0xbb, 0xbf];
  return encoding === "utf-16le" ? [0xff, 0xfe] : [0xfe, 0xff];
}

/** One that says it is something else would be read wrongly by whoever believes it. */
function demandUnicode(text: string): void {
  const declared = /^<\?xml[^>]*encoding\s*=\s*["']([^"']*)["']/.exec(text)?.[1];
  if (declared !== undefined && !/^utf-?(8|16)(le|be)?$/i.test(declared))
    throw new XmpError(`it says it is in ${declared}, and XMP is in UTF-8 or UTF-16`);
}
