import { useState } from "preact/hooks";
import type { KeptLibrary } from "./library-client.ts";
import { troubleOf } from "./trouble.ts";

interface BringInProps {
  readonly library: KeptLibrary;
  /** the first of the shoots that came in */
  readonly came: (shoot: string) => void;
}

/** Takes a shoot's archive in: chosen here, or let go over these words. */
export function BringIn({ library, came }: BringInProps) {
  const [state, setState] = useState<{ readonly words: string; readonly isTrouble: boolean } | null>(null);
  const [isOver, setOver] = useState(false);

  async function bring(file: File | undefined) {
    if (file === undefined) return;
    setState({ words: `${file.name} is being brought in`, isTrouble: false });
    try {
      const [first] = await library.bringIn(file);
      setState(null);
      if (first !== undefined) came(first);
      else setState({ words: `${file.name} holds no shoot`, isTrouble: true });
    } catch (error) {
      setState({ words: `${file.name} is not brought in: ${troubleOf(error)}`, isTrouble: true });
    }
  }

  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the same by the button within
    <span
      class="bring-in"
      data-over={isOver}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => {
        // elsewhere a file that is let go is opened as a plan
        event.preventDefault();
        event.stopPropagation();
        setOver(false);
        void bring(event.dataTransfer?.files[0]);
      }}
    >
      <button type="button" onClick={() => chooseFile(bring)}>
        bring in an archive
      </button>{" "}
      <span class="quiet small by-pointer">or drop it on these words</span>
      {state !== null && (
        <span
          class={state.isTrouble ? "alert line" : "quiet line"}
          role={state.isTrouble ? "alert" : "status"}
        >
          {state.words}
        </span>
      )}
    </span>
  );
}

function chooseFile(take: (file: File | undefined) => void): void {
  const input = document.createElement("input");
  input.type = "file";
  input.accept = ".zip,application/zip";
  input.onchange = () => take(input.files?.[0]);
  input.click();
}
