import type { Plan } from "../plan/index.ts";
import type { CourierState, Saving } from "../workbench/index.ts";
import type { Bench } from "./bench.ts";
import { later } from "./later.tsx";

const Apart = later(async () => (await import("./keeping-apart.tsx")).Apart);

interface KeptProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly saving: Saving;
  readonly keeping: CourierState;
  /** when the newest change was last known to be safe, as a clock shows it */
  readonly keptAt: string | null;
}

/** How safe the newest change is, and where. A server that is away is no fault: what is kept here goes there later. */
export function Kept({ bench, plan, saving, keeping, keptAt }: KeptProps) {
  if (saving.state === "failed" || saving.state === "conflict") {
    return (
      <div class="alert" role="alert">
        <p>
          {saving.problem}; {saving.cure}
        </p>
        {saving.state === "conflict" && saving.between !== undefined && (
          <Apart bench={bench} plan={plan} between={saving.between} />
        )}
        {saving.state === "conflict" && (
          <p class="row">
            <button type="button" onClick={() => void bench.session.keepMine()}>
              keep mine
            </button>
            <button type="button" onClick={() => void bench.session.takeTheirs()}>
              take theirs
            </button>
          </p>
        )}
      </div>
    );
  }
  if (saving.state !== "saved") return <p>keeping…</p>;
  const kept = keptAt === null ? "kept" : `kept ${keptAt}`;
  if (keeping.trouble !== null) {
    return (
      <p class="alert" role="alert">
        {kept} in this browser; the server: {keeping.trouble.problem}; {keeping.trouble.cure}
      </p>
    );
  }
  if (keeping.reach === "away") return <p>{kept} in this browser; the server is away</p>;
  return <p>{keeping.reach === "none" ? `${kept} in this browser` : kept}</p>;
}
