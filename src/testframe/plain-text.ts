/** Text out of a file that nobody vouches for, fit to be shown: one line, no control characters, not long. */
export function plainText(text: string, most = 80): string {
  const [upToNought] = text.slice(0, 4 * most).split("\0");
  const plain = upToNought.replace(/[\p{C}\p{Zl}\p{Zp}]/gu, "").trim();
  return plain.length > most ? `${plain.slice(0, most - 1)}…` : plain;
}
