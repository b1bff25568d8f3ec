/** "14:02", the time of day as the photographer's own clock shows it. */
export function clockTime(at: Date): string {
  return `${two(at.getHours())}:${two(at.getMinutes())}`;
}

/** "2026-11-26", as a calendar on the wall says it. */
export function dayOf(at: Date): string {
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}

const two = (n: number) => String(n).padStart(2, "0");
