import { useEffect, useId, useRef, useState } from "preact/hooks";
import type { ShootDesk, ShootState } from "./shoot-desk.ts";
import { PHOTOGRAPHS } from "./shoot-files.ts";

/** How frames come in: handed over, or from a folder that is watched. */
export function Intake({ desk, state }: { readonly desk: ShootDesk; readonly state: ShootState }) {
  if (state.reach === "none") return <NoServer />;
  return (
    <section class="intake" aria-labelledby="intake-title">
      <h2 id="intake-title" class="visually-hidden">
        How frames come in
      </h2>
      <p>
        <ChooseFiles desk={desk} /> <span class="quiet by-pointer">or drop them anywhere on this window</span>
      </p>
      <Watched desk={desk} state={state} />
      {state.reach === "away" && (
        <p class="alert" role="alert">
          The server does not answer; start it again with <code>tapemark open</code>. What it read stays here
          while this page is open.
        </p>
      )}
    </section>
  );
}

function NoServer() {
  return (
    <section class="intake" aria-labelledby="intake-title">
      <h2 id="intake-title">No photographs here</h2>
      <p>
        Photographs are decoded and read by the program that <code>tapemark open</code> starts; this page
        comes from plain files and has none behind it.
      </p>
      <p class="quiet">Meter readings can be entered here all the same.</p>
    </section>
  );
}

function ChooseFiles({ desk }: { desk: ShootDesk }) {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <button type="button" class="begin" onClick={() => input.current?.click()}>
        choose photographs
      </button>
      <input
        ref={input}
        class="visually-hidden"
        type="file"
        multiple
        accept={PHOTOGRAPHS}
        aria-label="photographs"
        tabIndex={-1}
        onChange={(event) => {
          const files = [...(event.currentTarget.files ?? [])];
          event.currentTarget.value = "";
          void desk.hand(files);
        }}
      />
    </>
  );
}

/** A folder on the machine where the server runs: tethering programs write there. */
function Watched({ desk, state }: { desk: ShootDesk; state: ShootState }) {
  const id = useId();
  const { folder, folderProblem } = state.desk;
  const [typed, setTyped] = useState(folder ?? "");
  const [why, setWhy] = useState<string | null>(null);
  const [isAsking, setAsking] = useState(false);
  useEffect(() => {
    if (folder !== null) setTyped(folder);
  }, [folder]);
  const watch = async (path: string | null) => {
    setAsking(true);
    setWhy(await desk.watch(path));
    setAsking(false);
  };
  const begin = () => {
    if (typed.trim() === "") setWhy("give the folder that your camera's program writes to, from the root on");
    else void watch(typed.trim());
  };
  return (
    <div class="watched">
      <label for={id}>watched folder</label>
      <textarea
        id={id}
        rows={1}
        autoComplete="off"
        spellcheck={false}
        placeholder="none"
        value={typed}
        aria-invalid={why !== null}
        aria-describedby={`${id}-state`}
        onInput={(event) => setTyped(event.currentTarget.value)}
        onKeyDown={(event) => {
          if (event.key === "Enter") {
            event.preventDefault();
            begin();
          }
          if (event.key === "Escape") setTyped(folder ?? "");
        }}
      />
      <p id={`${id}-state`} class={why === null && folderProblem === null ? "quiet" : "alert"}>
        {why ??
          folderProblem ??
          (folder === null
            ? "new pictures in it come in by themselves"
            : "watching: new pictures come in by themselves")}
      </p>
      <p class="row">
        {folder !== typed.trim() || folder === null ? (
          <button type="button" disabled={isAsking} onClick={begin}>
            watch it
          </button>
        ) : null}
        {folder !== null && (
          <button type="button" disabled={isAsking} onClick={() => void watch(null)}>
            stop watching
          </button>
        )}
      </p>
    </div>
  );
}
