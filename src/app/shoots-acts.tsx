import type { Bench } from "./bench.ts";
import { useStore } from "./hooks.ts";
import type { KeptLibrary } from "./library-client.ts";
import { RecordOfShoot } from "./record-of-shoot.tsx";
import type { ShootDraft } from "./shoots-draft.ts";
import { PackShoot } from "./shoots-pack.tsx";
import { Sidecars } from "./shoots-sidecars.tsx";

interface ActsProps {
  readonly bench: Bench;
  readonly library: KeptLibrary;
  readonly draft: ShootDraft;
}

/** What is done with a shoot as a whole. */
export function WholeActs({ bench, library, draft }: ActsProps) {
  useStore(draft.store);
  const { id, isPutAway, title } = draft.fields();
  function put(away: boolean) {
    draft.put({ isPutAway: away });
    void draft.flush();
  }
  return (
    <section class="shoots-acts" aria-labelledby="acts-title">
      <h2 id="acts-title" class="visually-hidden">
        The whole shoot
      </h2>
      <RecordOfShoot bench={bench} shoot={id} title={title} />
      <Sidecars library={library} shoot={id} />
      <PackShoot shoot={id} />
      <p>
        <button type="button" onClick={() => put(!isPutAway)}>
          {isPutAway ? "bring back" : "put away"}
        </button>{" "}
        <span class="quiet small">
          {isPutAway
            ? "it is out of the list; nothing of it is gone"
            : "out of the list until it is asked for"}
        </span>
      </p>
    </section>
  );
}
