import { useState } from "preact/hooks";
import type { PlanInShoot, PlanVersion } from "../shoots/index.ts";
import { useKeysBack } from "./hooks.ts";
import { NameField } from "./shoots-name-field.tsx";
import { nowOf, versionWords } from "./shoots-states.ts";
import { whenText } from "./start-words.ts";

interface VersionsProps {
  readonly now: () => Date;
  readonly inShoot: PlanInShoot;
  /** the shoot has other plans */
  readonly hasOthers: boolean;
  readonly picked: readonly string[];
  readonly pick: (id: string) => void;
  readonly rename: (id: string, name: string) => Promise<void>;
  readonly openVersion: (version: PlanVersion, of: PlanInShoot) => void;
}

/** Folded open at first only so far as an evening's work goes. */
const SHOWN_AT_FIRST = 5;

/** Every state of a plan, the newest first; ticked ones are put side by side. */
export function Versions(props: VersionsProps) {
  const { hasOthers, inShoot, picked, pick } = props;
  const [isAll, setAll] = useState(false);
  const newest = [...inShoot.versions].reverse();
  const shown = isAll ? newest : newest.slice(0, SHOWN_AT_FIRST);
  // alone in its shoot there is nothing to put beside it
  if (newest.length === 0 && !hasOthers) return null;
  const present = nowOf(inShoot);
  return (
    <>
      <ul class="versions" aria-label={`States of ${inShoot.title}, newest first`}>
        <li>
          <Tick id={present.id} of={present.name} picked={picked} pick={pick} />
          <label class="version-words" for={`tick ${present.id}`}>
            as it is now
          </label>
        </li>
        {shown.map((version) => (
          <Version key={version.id} {...props} version={version} />
        ))}
      </ul>
      {shown.length < newest.length && (
        <button type="button" onClick={() => setAll(true)}>
          {newest.length - shown.length} earlier versions
        </button>
      )}
    </>
  );
}

function Tick({ id, of, picked, pick }: { id: string; of: string } & Pick<VersionsProps, "picked" | "pick">) {
  return (
    <input
      id={`tick ${id}`}
      type="checkbox"
      aria-label={`compare ${of}`}
      checked={picked.includes(id)}
      onChange={() => pick(id)}
    />
  );
}

function Version(props: VersionsProps & { version: PlanVersion }) {
  const { inShoot, now, picked, pick, rename, version } = props;
  const [isNaming, setNaming] = useState(false);
  const words = versionWords(version);
  const opener = useKeysBack<HTMLButtonElement>(isNaming);
  return (
    <li>
      <Tick id={version.id} of={words} picked={picked} pick={pick} />
      <span class="version-words">
        {isNaming ? (
          <span class="name-line">
            {version.number}
            <NameField
              label={`name of version ${version.number}`}
              name={version.name}
              done="call it so"
              take={(name) => void rename(version.id, name).then(() => setNaming(false))}
              leave={() => setNaming(false)}
            />
          </span>
        ) : (
          <label class="version-words" for={`tick ${version.id}`}>
            <span>{words}</span>{" "}
            <span class="quiet small">
              {whenText(version.madeAt, now())}
              {version.isAutomatic &&
                (version.name === "" ? " as a frame came in" : ", kept by itself as a frame came in")}
            </span>
          </label>
        )}
      </span>
      {!isNaming && (
        <span class="row">
          <button type="button" onClick={() => props.openVersion(version, inShoot)}>
            open a copy<span class="visually-hidden"> of {words}</span>
          </button>
          <button ref={opener} type="button" onClick={() => setNaming(true)}>
            rename<span class="visually-hidden"> {words}</span>
          </button>
        </span>
      )}
    </li>
  );
}
