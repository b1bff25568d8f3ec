import { useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";
import type { ShareState } from "../workbench/index.ts";
import type { Bench } from "./bench.ts";
import { clockTime } from "./format-clock.ts";
import { useStore } from "./hooks.ts";
import { type ShareDesk, shareDeskOf } from "./share-desk.ts";
import { digitsShown, isChangedSince, thingName, timeLeft } from "./share-words.ts";

interface PanelProps {
  readonly bench: Bench;
  /** of the plan on the table */
  readonly setUps: ReadonlyMap<string, string>;
  readonly close: () => void;
}

/** The switch that lets a phone look, the code that is typed there, and who looks. */
export function SharePanel({ bench, setUps, close }: PanelProps) {
  const desk = shareDeskOf(bench);
  const dialog = useRef<HTMLDialogElement>(null);
  useLayoutEffect(() => dialog.current?.showModal(), []);
  if (desk === null) return null;
  return (
    <dialog ref={dialog} class="share" aria-labelledby="share-title" onClose={close}>
      <div class="section-head">
        <h2 id="share-title">On a phone or tablet</h2>
        <button type="button" onClick={() => dialog.current?.close()}>
          close
        </button>
      </div>
      <Inside desk={desk} setUps={setUps} />
    </dialog>
  );
}

function Inside({ desk, setUps }: { desk: ShareDesk; setUps: ReadonlyMap<string, string> }) {
  const { share, refusal, placed } = useStore(desk.store);
  // as it was asked for, until it is so
  const [asked, setAsked] = useState<boolean | null>(null);
  const problem = refusal ?? share?.problem ?? null;
  const there = placed.filter(({ thing }) => setUps.has(thing));
  async function turn(on: boolean) {
    setAsked(on);
    await desk.turn(on);
    setAsked(null);
  }
  return (
    <>
      <label class="share-switch">
        <input
          type="checkbox"
          checked={asked ?? share?.isOn === true}
          disabled={share === null || asked !== null}
          onChange={(event) => void turn(event.currentTarget.checked)}
        />
        <span>
          let a phone or tablet look
          <span class="quiet line">
            Who is in the same network and types the code sees this plan as it changes, ticks what stands and
            sends meter readings, and can do nothing else; it is off again when Tapemark ends.
          </span>
        </span>
      </label>
      {problem !== null && (
        <p class="news" role="alert">
          <span>
            <strong>{begun(problem.problem)}.</strong> {begun(problem.cure)}.
          </span>
        </p>
      )}
      {share?.isOn === true && <Invitation desk={desk} share={share} />}
      {share !== null && share.devices.length > 0 && <Devices desk={desk} share={share} />}
      {there.length > 0 && (
        <section aria-labelledby="share-placed">
          <h3 id="share-placed">Stands already</h3>
          <ul class="share-list">
            {there.map(({ thing, by, at, setUp }) => (
              <li key={thing}>
                <span class="share-name">{thingName(thing)}</span>
                <span class="quiet">
                  {by}, {clockTime(new Date(at))}
                  {isChangedSince(setUps, { thing, setUp }) && "; the plan has changed it since"}
                </span>
              </li>
            ))}
          </ul>
        </section>
      )}
    </>
  );
}

const begun = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

/** Where to go and what to type there. */
function Invitation({ desk, share }: { desk: ShareDesk; share: ShareState }) {
  const { addresses } = share;
  const [chosen, choose] = useState<string | null>(null);
  const address = chosen !== null && addresses.includes(chosen) ? chosen : (addresses[0] ?? null);
  const picture = usePicture(desk, address);
  return (
    <div class="share-way">
      <div class="share-qr">
        {picture !== null && <img src={picture} alt={`QR code of ${address}`} width={176} height={176} />}
      </div>
      <ol class="share-steps">
        <li>
          <span class="quiet">open on the phone, in the same network</span>
          {addresses.map((each) =>
            addresses.length === 1 ? (
              <strong key={each} class="line share-address">
                {each}
              </strong>
            ) : (
              <button
                key={each}
                type="button"
                class="line share-address"
                aria-pressed={each === address}
                onClick={() => choose(each)}
              >
                {each}
              </button>
            ),
          )}
        </li>
        <li>
          <span class="quiet">{share.code === null ? "for one more device" : "type there"}</span>
          <Code desk={desk} code={share.code} />
        </li>
      </ol>
    </div>
  );
}

function usePicture(desk: ShareDesk, address: string | null): string | null {
  const [picture, setPicture] = useState<string | null>(null);
  useEffect(() => {
    setPicture(null);
    if (address === null) return;
    let isWanted = true;
    void desk.qr(address).then((svg) => {
      if (isWanted && svg !== null) setPicture(`data:image/svg+xml,${encodeURIComponent(svg)}`);
    });
    return () => {
      isWanted = false;
    };
  }, [desk, address]);
  return picture;
}

/** Six digits that count down; used, or too old, they are gone. */
function Code({ desk, code }: { desk: ShareDesk; code: ShareState["code"] }) {
  const [now, setNow] = useState(() => new Date());
  useEffect(() => {
    setNow(new Date());
    const timer = setInterval(() => setNow(new Date()), 1000);
    return () => clearInterval(timer);
  }, [code?.endsAt]);
  const left = code === null ? null : timeLeft(code.endsAt, now);
  return (
    <>
      {code !== null && left !== null ? (
        <>
          <output class="share-code" aria-label="code">
            {digitsShown(code.digits)}
          </output>
          <span class="quiet line">for one device, {left} left</span>
        </>
      ) : (
        <span class="line">The last code is used up or too old.</span>
      )}
      <button type="button" onClick={() => void desk.newCode()}>
        a new code
      </button>
    </>
  );
}

function Devices({ desk, share }: { desk: ShareDesk; share: ShareState }) {
  return (
    <section aria-labelledby="share-devices">
      <h3 id="share-devices">Let in</h3>
      <ul class="share-list">
        {share.devices.map(({ id, name, pairedAt, isLooking }) => (
          <li key={id}>
            <span class="share-name">{name}</span>
            <span class="quiet">
              {isLooking ? "looking now" : "not looking"}, let in {clockTime(new Date(pairedAt))}
            </span>
            <button type="button" onClick={() => void desk.revoke(id)}>
              revoke<span class="visually-hidden"> {name}</span>
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
