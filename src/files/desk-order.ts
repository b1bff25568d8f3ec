/** The order in which photographs were taken. */

export interface Taken {
  readonly name: string;
  /** by the camera's clock, without a zone; null where the file does not say */
  readonly takenAt: string | null;
  /** ISO 8601 */
  readonly arrivedAt: string;
}

/** For sorting: by the camera's clock, then by number in the name as people count, then as they came. A file without a time
 * stands where it came. */
export function takenBefore(a: Taken, b: Taken): number {
  const [first, second] = [clockOf(a), clockOf(b)];
  if (first !== second) return first < second ? -1 : 1;
  return (
    NAMES.compare(a.name, b.name) || (a.arrivedAt < b.arrivedAt ? -1 : Number(a.arrivedAt > b.arrivedAt))
  );
}

const NAMES = new Intl.Collator("en", { numeric: true });

function clockOf({ takenAt, arrivedAt }: Taken): string {
  return takenAt ?? localTime(new Date(arrivedAt));
}

/** A camera writes local time without a zone: files without one are put beside it by this machine's clock. */
export function localTime(at: Date): string {
  return new Date(at.getTime() - at.getTimezoneOffset() * 60_000).toISOString().slice(0, -1);
}
