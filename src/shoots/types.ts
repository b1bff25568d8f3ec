/** The words of the library. A shoot is one booking: what was asked for, its plans, what was shot and picked. */

/** As a person fills it in; empty text is "not said". */
export interface ShootFields {
  readonly title: string;
  /** the day of it, "2026-11-26"; null while it is not settled */
  readonly date: string | null;
  readonly place: string;
  readonly client: string;
  readonly notes: string;
  /** out of the list until it is asked for; nothing of it is gone */
  readonly isPutAway: boolean;
}

export interface Shoot extends ShootFields {
  readonly id: string;
  /** ISO 8601 */
  readonly createdAt: string;
  readonly changedAt: string;
  /** grows by one with each change of the fields */
  readonly revision: number;
}

/** One line of the list of shoots. */
export interface ShootRow extends Shoot {
  readonly plans: number;
  readonly frames: number;
  readonly selects: number;
  /** of its plans and frames, as the trade names them */
  readonly patterns: readonly string[];
  readonly lights: readonly string[];
  /** "7.00 × 9.00 m", one a different room */
  readonly rooms: readonly string[];
  /** the frame that stands for it: the best rated, else the newest; null where there is none */
  readonly cover: string | null;
}

/** Everything left out or empty does not narrow. All that is said has to hold. */
export interface ShootQuery {
  /** words in title, place, client, notes, plans' titles and names of what stands in them; each may be a beginning */
  readonly text?: string;
  readonly pattern?: string;
  readonly light?: string;
  readonly room?: string;
  /** days, both counted in */
  readonly from?: string;
  readonly to?: string;
  /** at least one frame with so many */
  readonly stars?: number;
  readonly putAway?: boolean;
  readonly offset: number;
  readonly limit: number;
}

export interface ShootRows {
  readonly total: number;
  /** newest day first */
  readonly rows: readonly ShootRow[];
}

/** What there is to narrow by, in the order of the alphabet. */
export interface ShootChoices {
  readonly patterns: readonly string[];
  readonly lights: readonly string[];
  readonly rooms: readonly string[];
}

/** A plan as it was at one moment, kept under a name. It never changes. */
export interface PlanVersion {
  readonly id: string;
  /** the work that it is a version of */
  readonly key: string;
  /** 1, 2, 3 … within its work */
  readonly number: number;
  readonly name: string;
  readonly madeAt: string;
  /** kept by itself: a test frame came in under a plan that had changed since the last one */
  readonly isAutomatic: boolean;
}

export interface PlanInShoot {
  readonly key: string;
  readonly title: string;
  readonly savedAt: string;
  /** meter readings that are written in it */
  readonly readings: number;
  readonly isCalibrated: boolean;
  /** oldest first */
  readonly versions: readonly PlanVersion[];
}

export interface ShootWhole {
  readonly shoot: Shoot;
  readonly plans: readonly PlanInShoot[];
  readonly frames: number;
}

export type Stars = 0 | 1 | 2 | 3 | 4 | 5;

/** A test frame as it is listed. The photograph itself stays where it lies. */
export interface FrameRow {
  readonly id: string;
  readonly shoot: string;
  /** the plan that was on the table when it came in, and which version of it; null where none was */
  readonly key: string | null;
  readonly version: string | null;
  readonly name: string;
  /** null where it was handed over by a browser, which does not say where a file lies */
  readonly path: string | null;
  readonly takenAt: string | null;
  readonly arrivedAt: string;
  readonly width: number;
  readonly height: number;
  /** of the largest face; null where there is none, or it cannot be told */
  readonly pattern: string | null;
  readonly ratioStops: number | null;
  /** share of visible skin that clips */
  readonly clippedSkin: number | null;
  readonly stars: Stars;
  readonly isSelect: boolean;
  readonly hasThumbnail: boolean;
}

export interface FrameRows {
  readonly total: number;
  /** in the order they were taken */
  readonly rows: readonly FrameRow[];
}

/** What the pair of stars and select becomes; what is left out stays. */
export interface Pick {
  readonly stars?: Stars;
  readonly isSelect?: boolean;
}

/** A thing of a plan that somebody has set up. */
export interface Placed {
  /** list and name: "lights/key", "panels/V-flat, black", "camera", "backdrop" */
  readonly thing: string;
  readonly by: string;
  readonly at: string;
  /** mark of what it was set up by then: where the plan's is another one now, it was changed since */
  readonly setUp: string;
}

/** What writing sidecars came to. */
export interface SidecarsWritten {
  readonly written: number;
  readonly unchanged: number;
  readonly problems: readonly { readonly name: string; readonly problem: string; readonly cure: string }[];
}

/** One difference between two plans, in the trade's words. */
export interface PlanChange {
  /** what it is about: "key", "camera", "room", "cellist" */
  readonly what: string;
  /** "power", "place", "height", "aim", "front", "distance from the nose", … */
  readonly which: string;
  /** as the sheet writes it; "" where the thing was not there */
  readonly before: string;
  readonly after: string;
  /** "0.7 stop up", "30 cm nearer", "added", "taken away" */
  readonly change: string;
}
