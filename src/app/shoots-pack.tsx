import { useEffect, useMemo } from "preact/hooks";
import { fetchAs } from "./file-actions.ts";
import { packArchive } from "./library-client.ts";
import { SheetRun } from "./record-run.ts";
import { Working } from "./record-working.tsx";

/** The shoot as one archive: how far it is packed, a way to stop that, and in words what went wrong. */
export function PackShoot({ shoot }: { readonly shoot: string }) {
  const run = useMemo(() => new SheetRun(), [shoot]);
  useEffect(() => () => run.leave(), [run]);
  const save = () =>
    run.start("the archive", async (work) => {
      const { address, name } = await packArchive(shoot, work);
      fetchAs(name, address);
      return `${name} is packed and handed to the browser.`;
    });
  return (
    <div>
      <p>
        <button type="button" onClick={() => void save()}>
          save as one archive
        </button>{" "}
        <span class="quiet small">plans, versions, readings, frames, sheets, in open forms</span>
      </p>
      <Working run={run} />
    </div>
  );
}
