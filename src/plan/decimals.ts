/** Plan files hold micrometres and millionths at most, so that they can be compared line by line. */
export function round6(value: number): number {
  // adding 0 turns -0, which no file can hold, into 0
  return Number(value.toFixed(6)) + 0;
}
