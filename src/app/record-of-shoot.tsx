import { useEffect, useMemo } from "preact/hooks";
import type { Bench } from "./bench.ts";
import { download, fileStem } from "./file-actions.ts";
import { useStore } from "./hooks.ts";
import { recordPdf } from "./record-client.ts";
import { SheetRun } from "./record-run.ts";
import { Working } from "./record-working.tsx";

interface OfShootProps {
  readonly bench: Bench;
  readonly shoot: string;
  readonly title: string;
}

/** The record sheet of a shoot that is kept: of the plan that its pick was shot on. */
export function RecordOfShoot({ bench, shoot, title }: OfShootProps) {
  const { units } = useStore(bench.view);
  const run = useMemo(() => new SheetRun(), [shoot]);
  useEffect(() => () => run.leave(), [run]);
  const save = () =>
    run.start("the record sheet", async (work) => {
      const pdf = await recordPdf(shoot, null, units, work);
      download(`${fileStem(title)}-record.pdf`, "application/pdf", pdf);
      return "The record sheet is saved.";
    });
  return (
    <div>
      <p>
        <button type="button" onClick={() => void save()}>
          record sheet, PDF
        </button>{" "}
        <span class="quiet small">planned, set, metered and taken on paper, to build it again</span>
      </p>
      <Working run={run} />
    </div>
  );
}
