/** How many cases a property is tried on: a tenth in everyday runs, all of them where TAPEMARK_LONG=1 is set. */
export function amount(whole: number): number {
  return process.env.TAPEMARK_LONG === "1" ? whole : Math.ceil(whole / 10);
}
