/** What paired devices may do to the work on the table: tick what is set up, and send what the meter said. A reading becomes
 * one step of that work, and windows that have it open take it in as they take in what another window did. */
import { applyEdit, current, type Edit, type Plan, record } from "../plan/index.ts";
import {
  type PlanStore,
  SaveConflict,
  type SentReading,
  type ShootLibrary,
  WorkError,
} from "../workbench/index.ts";
// by their files: only what opens works has to do with how they are kept
import { packHistory } from "../workbench/kept-history.ts";
import { readWork } from "../workbench/open-work.ts";

export interface LiveWriteParts {
  readonly store: Pick<PlanStore, "load" | "save">;
  readonly library: Pick<ShootLibrary, "place">;
  readonly hand: () => string | null;
  readonly put: (plan: Plan, sent: SentReading) => Edit | { readonly problem: string; readonly cure: string };
}

/** A window that drags a light saves a few times a second; between two of its saves there is room. */
const MOST_TRIES = 8;

/** Errors  WorkError where there is no plan, or the reading does not go into it */
export async function writeReading(
  parts: LiveWriteParts,
  sent: SentReading,
  device: { readonly id: string; readonly name: string },
): Promise<void> {
  const key = parts.hand();
  if (key === null) throw NO_PLAN;
  for (let tries = 1; ; tries++) {
    const saved = await parts.store.load(key);
    const work = saved && readWork(saved);
    if (work === null) throw NO_PLAN;
    const edit = parts.put(current(work.history), sent);
    if ("problem" in edit) throw new WorkError(edit.problem, edit.cure);
    const made = applyEdit(current(work.history), edit);
    if (!made.ok) throw new WorkError("the plan does not take this reading", "enter it in the workbench");
    const history = record(work.history, `reading from ${device.name}`, made.plan);
    const revision = work.revision + 1;
    const by = `device-${device.id} ${revision}`;
    try {
      await parts.store.save(key, {
        plan: made.plan,
        history: packHistory(history, work.opened),
        revision,
        by,
      });
      return;
    } catch (error) {
      if (!(error instanceof SaveConflict) || tries >= MOST_TRIES) throw error;
    }
  }
}

/** Ticks a thing of the plan, or takes the tick away; the library says whether there is such a thing.
 * Errors  WorkError where there is no plan, or no such thing in it */
export async function writePlaced(
  { library, hand }: Pick<LiveWriteParts, "library" | "hand">,
  thing: string,
  isPlaced: boolean,
  device: { readonly name: string },
): Promise<void> {
  const key = hand();
  if (key === null) throw NO_PLAN;
  await library.place(key, thing, isPlaced, device.name);
}

const NO_PLAN = new WorkError("there is no plan on the table", "open one in the workbench");

/** What a device sent, or null where it is no reading. What it says is checked against the plan later. */
export function sentReadingOf(value: unknown): SentReading | null {
  if (typeof value !== "object" || value === null) return null;
  const { meter, light, fNumber, iso, note } = value as Record<string, unknown>;
  const isText = (text: unknown, most: number): text is string =>
    typeof text === "string" && text.length <= most;
  if (!isText(meter, 200) || !isText(light, 200) || typeof fNumber !== "number") return null;
  if (iso !== undefined && typeof iso !== "number") return null;
  if (note !== undefined && !isText(note, 500)) return null;
  return {
    meter,
    light,
    fNumber,
    ...(iso === undefined ? {} : { iso }),
    ...(note === undefined ? {} : { note: note.replace(/\p{C}/gu, " ") }),
  };
}
