import { useState } from "preact/hooks";
import type { FileActions } from "./file-actions.ts";

/** The placement sheet as a file. It takes a few seconds, which are said where it was asked for. */
export function SheetActions({ files }: { files: Pick<FileActions, "saveSheetPdf" | "saveSheetSvg"> }) {
  const [isMaking, setMaking] = useState(false);
  const make = async (save: () => Promise<void>) => {
    if (isMaking) return;
    setMaking(true);
    await save().finally(() => setMaking(false));
  };
  return (
    <>
      <span class="sheet-actions">
        sheet:{" "}
        <button onClick={() => make(files.saveSheetPdf)} type="button">
          PDF
        </button>{" "}
        <button onClick={() => make(files.saveSheetSvg)} type="button">
          SVG
        </button>
      </span>
      <span aria-live="polite">{isMaking && " being made…"}</span>
    </>
  );
}
