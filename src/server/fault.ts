/** What failed inside, in one line of the log: what was asked for and why it failed, never what was sent. */

const MOST_CHARACTERS = 200;

export type TellFault = (what: string, error: unknown) => void;

export function tellFault(what: string, error: unknown): void {
  console.error(`tapemark: ${what} failed: ${causeOf(error)}`);
}

/** Messages of the runtime and of libraries quote what they were given: plans, names, paths of people. */
function causeOf(error: unknown): string {
  if (!(error instanceof Error)) return "no reason was given";
  const { code } = error as NodeJS.ErrnoException;
  const message = error.message
    .replace(/"[^"]*"|'[^']*'|`[^`]*`/g, "…")
    .replace(/\s+/g, " ")
    .slice(0, MOST_CHARACTERS);
  const where = /\(?(?:file:\/\/)?[^\s()]*?([^/\s()]+:\d+):\d+\)?$/m.exec(error.stack ?? "")?.[1];
  return [error.name, code, message, where && `at ${where}`].filter(Boolean).join(" ");
}
