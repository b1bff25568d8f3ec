/** Whether two pieces of plain data are one and the same, written out: their fields in the same order. */
export function isSameData(a: unknown, b: unknown): boolean {
  return a === b || JSON.stringify(a) === JSON.stringify(b);
}
