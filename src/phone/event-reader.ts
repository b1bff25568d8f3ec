/** Server-sent events out of the pieces of text in which they arrive. Comments, which only say that somebody is there,
 * yield nothing. */
export class EventReader {
  #rest = "";

  read(text: string): unknown[] {
    const parts = (this.#rest + text).replaceAll("\r", "").split("\n\n");
    this.#rest = parts.pop() ?? "";
    return parts.flatMap((part) => {
      const data = part
        .split("\n")
        .filter((line) => line.startsWith("data:"))
        .map((line) => line.slice(5))
        .join("\n");
      return data === "" ? [] : [JSON.parse(data) as unknown];
    });
  }
}
