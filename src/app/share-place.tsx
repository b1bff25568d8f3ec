import { useEffect, useMemo, useState } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import { setUpsOf } from "../workbench/index.ts";
import type { Bench } from "./bench.ts";
import { useStore } from "./hooks.ts";
import { type ShareDesk, shareDeskOf } from "./share-desk.ts";
import { SharePanel } from "./share-panel.tsx";
import { sharedWords, standWords } from "./share-words.ts";

/** How far the set is built, and the way to those who build it; nothing where no server is behind the page. */
export function ShowOnPhone({ bench, plan }: { readonly bench: Bench; readonly plan: Plan }) {
  const desk = shareDeskOf(bench);
  return desk && <Line bench={bench} desk={desk} plan={plan} />;
}

function Line({ bench, desk, plan }: { bench: Bench; desk: ShareDesk; plan: Plan }) {
  const { placed, share } = useStore(desk.store);
  const { key } = useStore(bench.session);
  const setUps = useMemo(() => setUpsOf(plan), [plan]);
  const [isOpen, setOpen] = useState(false);
  useEffect(() => void desk.look(), [desk]);
  useEffect(() => void desk.lookAt(key), [desk, key]);
  const shared = sharedWords(share);
  return (
    <>
      <span class="line">{standWords(setUps, placed)}</span>
      <button type="button" class="line" onClick={() => setOpen(true)}>
        show on a phone
      </button>
      {shared !== null && <span class="line">{shared}</span>}
      {isOpen && <SharePanel bench={bench} setUps={setUps} close={() => setOpen(false)} />}
    </>
  );
}
