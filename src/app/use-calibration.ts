import { useEffect, useState } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import type { Calibration, CalibrationFrame } from "../testframe/index.ts";
import type { Bench } from "./bench.ts";

export interface Calibrating {
  /** of the plan as it stands; null while it is worked out, and where there is nothing to learn from */
  readonly calibration: Calibration | null;
  /** 0 to 1; null where nothing is being worked out */
  readonly done: number | null;
  readonly failure: string | null;
}

const STILL_MS = 250;
const NOTHING: Calibrating = { calibration: null, done: null, failure: null };

/** What the plan's readings, and a test frame of it, say of its lights and room, worked out anew when either has changed and is still. */
export function useCalibration(bench: Bench, plan: Plan, frame: CalibrationFrame | null): Calibrating {
  const [state, setState] = useState<Calibrating & { readonly of: Plan | null; readonly by: unknown }>({
    ...NOTHING,
    of: null,
    by: null,
  });
  useEffect(() => {
    if ((plan.readings.length === 0 && frame === null) || plan.lights.length === 0) return;
    const stop = new AbortController();
    const put = (change: Calibrating) => {
      if (!stop.signal.aborted) setState({ ...change, of: plan, by: frame });
    };
    const timer = setTimeout(() => {
      put({ ...NOTHING, done: 0 });
      const onProgress = ({ done }: { done: number }) => put({ ...NOTHING, done });
      bench.trials
        .calibrate(plan, { frames: frame === null ? [] : [frame] }, { signal: stop.signal, onProgress })
        .then(
          (calibration) => put({ ...NOTHING, calibration }),
          (error: unknown) =>
            put({ ...NOTHING, failure: error instanceof Error ? error.message : String(error) }),
        );
    }, STILL_MS);
    return () => {
      clearTimeout(timer);
      stop.abort();
    };
  }, [bench, plan, frame]);
  return state.of === plan && state.by === frame ? state : NOTHING;
}
