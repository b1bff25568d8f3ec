/** Where a text stops being JSON, and the likely cause, in the same words in every runtime.
 * The caller has made sure that the text is not nested deeply. */
export interface Fault {
  readonly line: number;
  readonly column: number;
  readonly cause: string;
}

/** Null where the text is JSON. */
export function findFault(text: string): Fault | null {
  try {
    new Reader(text).document();
    return null;
  } catch (error) {
    if (!(error instanceof Found)) throw error;
    const before = text.slice(0, error.at).split("\n");
    return { line: before.length, column: before[before.length - 1].length + 1, cause: error.message };
  }
}

class Found extends Error {
  readonly at: number;
  constructor(at: number, cause: string) {
    super(cause);
    this.at = at;
  }
}

const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
const WORD = /[\p{L}_$][\p{L}\p{N}_$]{0,30}/uy;

class Reader {
  readonly #text: string;
  #at = 0;
  /** brackets that are open */
  readonly #open: { at: number; bracket: string }[] = [];

  constructor(text: string) {
    this.#text = text;
  }

  document() {
    this.#value();
    this.#space();
    if (this.#at < this.#text.length) this.#stop("there is more after the end of the plan; take it out");
  }

  #value() {
    this.#space();
    const c = this.#text[this.#at];
    if (c === "{") this.#group();
    else if (c === "[") this.#list();
    else if (c === '"') this.#string();
    else if (c === "-" || (c >= "0" && c <= "9")) this.#number();
    else {
      const word = this.#word();
      if (word !== "true" && word !== "false" && word !== "null") this.#stop(this.#strange("a value"));
      this.#at += word.length;
    }
  }

  #group() {
    this.#enter("{");
    if (this.#leaves("}")) return;
    do {
      this.#space();
      if (this.#text[this.#at] !== '"') this.#stop(this.#strange("a field's name"));
      const name = this.#string();
      this.#space();
      if (this.#text[this.#at] !== ":")
        this.#stop(this.#ended() ?? `a colon is missing after ${name.slice(0, 40)}`);
      this.#at++;
      this.#value();
    } while (this.#goesOn("}"));
  }

  #list() {
    this.#enter("[");
    if (this.#leaves("]")) return;
    do this.#value();
    while (this.#goesOn("]"));
  }

  #enter(bracket: string) {
    this.#open.push({ at: this.#at++, bracket });
  }

  #leaves(close: string): boolean {
    this.#space();
    if (this.#text[this.#at] !== close) return false;
    this.#at++;
    this.#open.pop();
    return true;
  }

  /** True after a comma, false after the closing bracket. */
  #goesOn(close: string): boolean {
    if (this.#leaves(close)) return false;
    if (this.#text[this.#at] !== ",") this.#stop(this.#insteadOfComma(close));
    this.#at++;
    return true;
  }

  #string(): string {
    const start = this.#at++;
    for (;;) {
      const c = this.#text[this.#at];
      if (c === undefined || c === "\n" || c === "\r") {
        this.#at = start;
        this.#stop("these quotes are not closed on their line");
      }
      if (c === '"') return this.#text.slice(start, ++this.#at);
      if (c < " ") this.#stop("a control character or tab stands inside quotes; take it out");
      if (c === "\\") {
        if (!/^(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/.test(this.#text.slice(this.#at + 1, this.#at + 6)))
          this.#stop("a backslash inside quotes must be doubled: \\\\");
        this.#at++;
      }
      this.#at++;
    }
  }

  #number() {
    NUMBER.lastIndex = this.#at;
    const found = NUMBER.exec(this.#text);
    if (!found) this.#stop("a minus sign without a number");
    this.#at += found[0].length;
    const next = this.#text[this.#at] ?? "";
    if (/[0-9]/.test(next))
      this.#stop("a number must not begin with a 0 before other digits; take the 0 out");
    if (next === ".") this.#stop("digits are missing after the decimal point");
    if (/[\p{L}"'°]/u.test(next)) this.#stop("a number must stand alone; take the unit off");
  }

  #space() {
    while (/[ \t\n\r]/.test(this.#text[this.#at] ?? "")) this.#at++;
  }

  #word(): string {
    WORD.lastIndex = this.#at;
    return WORD.exec(this.#text)?.[0] ?? "";
  }

  #ended(): string | null {
    if (this.#at < this.#text.length) return null;
    const innermost = this.#open.at(-1);
    const line = innermost && this.#text.slice(0, innermost.at).split("\n").length;
    return innermost
      ? `the text ends too early: the ${innermost.bracket} in line ${line} is not closed`
      : "the text ends too early";
  }

  #strange(expected: string): string {
    const c = this.#text[this.#at] ?? "";
    const before = this.#text.slice(0, this.#at).trimEnd();
    const word = this.#word();
    if (/^[}\]]/.test(c) && before.endsWith(",")) return `a comma stands before the ${c}; take the comma out`;
    if (/^['‘’“”„«`]/.test(c)) return 'quotes must be straight double ones: "';
    if (c === "#" || (c === "/" && /[/*]/.test(this.#text[this.#at + 1] ?? "")))
      return "comments are not allowed; take this one out";
    if (c === ",") return `${expected} is missing before this comma`;
    if (/[0-9]/.test(c)) return `${expected} must stand here, in quotes; a decimal comma must be a point`;
    if (/^[+.]/.test(c)) return "a number must begin with a digit or a minus sign: 0.5, not .5 or +0.5";
    if (/^(?:NaN|Infinity|undefined)$/.test(word))
      return `${word} is not a number that a plan can hold; write one`;
    if (/^(?:true|false|null|none)$/i.test(word))
      return `write true, false or null in small letters, not ${word}`;
    if (word) return `${word} must stand in quotes: "${word}"`;
    return this.#ended() ?? `${expected} is missing before ${this.#named(c)}`;
  }

  #insteadOfComma(close: string): string {
    const ended = this.#ended();
    if (ended) return ended;
    const c = this.#text[this.#at];
    const open = close === "}" ? "{" : "[";
    const line = this.#text.slice(0, this.#open.at(-1)?.at).split("\n").length;
    if (c === "}" || c === "]") return `a ${c} stands where the ${open} in line ${line} wants its ${close}`;
    if (c === "/" || c === "#") return "comments are not allowed; take this one out";
    return `a comma is missing before ${this.#named(c)}`;
  }

  #named(c: string): string {
    const code = c.codePointAt(0) ?? 0;
    if (code > 0x20 && code < 0x7f) return c;
    return `a strange or invisible character (U+${code.toString(16).toUpperCase().padStart(4, "0")})`;
  }

  #stop(cause: string): never {
    throw new Found(this.#at, cause);
  }
}
