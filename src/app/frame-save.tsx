import { useEffect, useRef, useState } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import type { Bench } from "./bench.ts";
import { parseNumber } from "./entries.ts";
import { download, fileStem } from "./file-actions.ts";
import type { FileRequest } from "./frame-file.ts";
import type { FrameLook } from "./frame-look.ts";
import { NumberField } from "./number-field.tsx";

/** Pixels across. 2400 take 2 GB and over a minute with one light (measured): more would not fit into a browser. */
const LEAST_PX = 100;
const MOST_PX = 2400;

type State =
  | { readonly kind: "idle" }
  | { readonly kind: "working"; readonly done: number; readonly what: string }
  | { readonly kind: "said"; readonly text: string };

interface SaveProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly look: FrameLook;
}

/** The picture worked out as large as asked and saved as a file, with the black and white that is on and no guides. */
export function FrameSave({ bench, plan, look }: SaveProps) {
  const [width, setWidth] = useState(1200);
  const [state, setState] = useState<State>({ kind: "idle" });
  const work = useRef<AbortController | null>(null);
  useEffect(() => () => work.current?.abort(), []);

  async function save(deep: boolean): Promise<void> {
    const stop = new AbortController();
    work.current = stop;
    const say = (text: string) => {
      setState({ kind: "said", text });
      bench.say.set(text);
    };
    setState({ kind: "working", done: 0, what: "picture" });
    try {
      const picture = await bench.trials.frame(
        plan,
        { width, quality: "fine", deep },
        {
          signal: stop.signal,
          onProgress: ({ done }) => setState({ kind: "working", done, what: "picture" }),
        },
      );
      setState({ kind: "working", done: 1, what: "file" });
      const file = await fileOf({ picture, mono: look.mono }, stop.signal);
      const name = `${fileStem(plan.title)}${look.mono.on ? "-black-and-white" : ""}${deep ? "-16-bit" : ""}.png`;
      download(name, "image/png", new Blob([file], { type: "image/png" }));
      say(`${name}: ${picture.width} × ${picture.height} pixels.`);
    } catch (error) {
      if (stop.signal.aborted) say("Stopped; nothing was saved.");
      else say(`The picture was not saved: ${error instanceof Error ? error.message : String(error)}.`);
    }
  }

  const isWorking = state.kind === "working";
  return (
    <fieldset class="save-picture">
      <legend class="visually-hidden">save the picture</legend>
      <NumberField
        label="pixels across"
        text={String(width)}
        parse={(text) => parseNumber(text, /\s*(px|pixels)$/i, "1200")}
        commit={(to) => {
          if (!(to >= LEAST_PX && to <= MOST_PX))
            return `${to} is too few or too many: give ${LEAST_PX} to ${MOST_PX}.`;
          setWidth(Math.round(to));
          return null;
        }}
        step={(way, large) => {
          setWidth(Math.min(MOST_PX, Math.max(LEAST_PX, width + way * (large ? 1000 : 100))));
          return null;
        }}
      />
      <p>
        <button type="button" disabled={isWorking} onClick={() => void save(false)}>
          PNG, 8 bit
        </button>
        <button type="button" disabled={isWorking} onClick={() => void save(true)}>
          PNG, 16 bit
        </button>
        {isWorking && (
          <>
            <progress value={state.done} aria-label={`working out the ${state.what}`} />
            <button type="button" onClick={() => work.current?.abort()}>
              stop
            </button>
          </>
        )}
      </p>
      {isWorking && (
        <p class="quiet">
          {state.what === "file" ? "writing the file" : `${Math.round(state.done * 100)} % of the picture`}
        </p>
      )}
      {state.kind === "said" && <p class="quiet">{state.text}</p>}
    </fieldset>
  );
}

/** Packing takes seconds for a large picture: a worker of its own does it, loaded when the first file is wanted. */
function fileOf(request: FileRequest, signal: AbortSignal): Promise<Uint8Array<ArrayBuffer>> {
  const worker = new Worker(new URL("./frame-file-worker.ts", import.meta.url), { type: "module" });
  return new Promise<Uint8Array<ArrayBuffer>>((resolve, reject) => {
    worker.onmessage = (event: MessageEvent<Uint8Array<ArrayBuffer>>) => resolve(event.data);
    worker.onerror = (event) => reject(new Error(event.message || "the file could not be made"));
    signal.addEventListener("abort", () => reject(new Error("stopped")), { once: true });
    const { rgba, deep } = request.picture;
    worker.postMessage(request, { transfer: [rgba.buffer, ...(deep === null ? [] : [deep.buffer])] });
  }).finally(() => worker.terminate());
}
