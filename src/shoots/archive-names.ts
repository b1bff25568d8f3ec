/** Names of files inside an archive: ones that every system takes, and none that leads out of a folder. */

/** What Windows keeps for devices, whatever ending follows. */
const RESERVED = /^(con|prn|aux|nul|conin\$|conout\$|com[0-9¹²³]|lpt[0-9¹²³])(\.|$)/i;
const LONGEST_STEM = 60;
const LONGEST_PART_BYTES = 200;
const DEEPEST = 6;

/** Gives each thing a name of its own, from what people call it. */
export interface Names {
  /** a name that is free with each of the endings, ignoring case */
  take(called: string, endings: readonly string[], otherwise: string): string;
}

export function createNames(): Names {
  const taken = new Set<string>();
  return {
    take(called, endings, otherwise) {
      const stem = stemOf(called) || otherwise;
      for (let number = 1; ; number++) {
        const name = number === 1 ? stem : `${stem} ${number}`;
        const files = endings.map((ending) => folded(`${name}${ending}`));
        if (files.some((file) => taken.has(file))) continue;
        for (const file of files) taken.add(file);
        return name;
      }
    },
  };
}

/** Letters and digits of any script stay; what some system refuses becomes a hyphen. */
function stemOf(called: string): string {
  const plain = called
    .normalize("NFC")
    .replace(/[^\p{L}\p{N}\p{M} _.,()+&'!=@#-]+/gu, "-")
    .replace(/\s+/g, " ");
  const short = [...plain].slice(0, LONGEST_STEM).join("");
  const stem = withinBytes(short).replace(/^[ .-]+|[ .]+$/g, "");
  return RESERVED.test(stem) ? `${stem.replace(/^[^.]*/, "$&-")}` : stem;
}

function withinBytes(text: string): string {
  let [left, bytes] = ["", 0];
  for (const letter of text) {
    bytes += utf8Length(letter);
    if (bytes > LONGEST_PART_BYTES - 20) return left;
    left += letter;
  }
  return left;
}

function utf8Length(text: string): number {
  let length = 0;
  for (const letter of text) {
    const code = letter.codePointAt(0) ?? 0;
    length += code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0x10000 ? 3 : 4;
  }
  return length;
}

/** Two names that some system takes for the same are the same here. */
export function folded(name: string): string {
  return name.normalize("NFKD").toLowerCase().normalize("NFKD");
}

/** Whether a name in an archive stays in its folder on every system. */
export function isSafeName(name: string): boolean {
  const parts = name.split("/");
  return parts.length <= DEEPEST && parts.every(isSafePart);
}

function isSafePart(part: string): boolean {
  return (
    part !== "" &&
    utf8Length(part) <= LONGEST_PART_BYTES &&
    // also "." and ".."
    !/[. ]$/.test(part) &&
    !part.startsWith(" ") &&
    !/[\p{Cc}\p{Cs}\p{Zl}\p{Zp}\\:*?"<>|\u202a-\u202e\u2066-\u2069]/u.test(part) &&
    !RESERVED.test(part)
  );
}
