/** "14:02", the time of day as the photographer's own clock shows it. */
export function clockTime(at: Date): string {
  return `${String(at.getHours()).padStart(2, "0")}:${String(at.getMinutes()).padStart(2, "0")}`;
}
