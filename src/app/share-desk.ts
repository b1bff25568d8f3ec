/** Sharing as this page follows it: who looks, and what they say stands. */
import type { Placed } from "../shoots/index.ts";
import {
  type NewsFeed,
  type ShareState,
  type Sharing,
  type ShootLibrary,
  WorkError,
} from "../workbench/index.ts";
import type { Bench } from "./bench.ts";
import { Store } from "./store.ts";

export interface ShareView {
  /** null until it was asked for */
  readonly share: ShareState | null;
  /** of the work `placedOf` */
  readonly placed: readonly Placed[];
  readonly placedOf: string | null;
  /** why what was last asked for was not done */
  readonly refusal: { readonly problem: string; readonly cure: string } | null;
}

export class ShareDesk {
  readonly store = new Store<ShareView>({ share: null, placed: [], placedOf: null, refusal: null });
  readonly #sharing: Sharing;
  readonly #library: Pick<ShootLibrary, "placed"> | null;
  #asked = 0;
  #answered = 0;

  constructor(sharing: Sharing, library: Pick<ShootLibrary, "placed"> | null) {
    this.#sharing = sharing;
    this.#library = library;
  }

  /** Follows what other windows and devices do. */
  follow(news: NewsFeed): void {
    news.subscribe((said) => {
      if (said.kind === "share") void this.look();
      if (said.kind === "placed" && said.key === this.store.get().placedOf) void this.lookAt(said.key);
    });
  }

  /** What is shared now. A server that does not answer is said elsewhere on the page. */
  async look(): Promise<void> {
    const turn = ++this.#asked;
    const share = await this.#sharing.state().catch(() => null);
    if (share !== null) this.#take(turn, share);
  }

  /** What stands of a work; a work that was never kept has nothing. */
  async lookAt(key: string): Promise<void> {
    if (this.store.get().placedOf !== key) this.store.update({ placed: [], placedOf: key });
    if (key === "" || this.#library === null) return;
    const placed = await this.#library.placed(key).catch(() => null);
    if (placed !== null && this.store.get().placedOf === key) this.store.update({ placed });
  }

  turn(on: boolean): Promise<void> {
    return this.#put(this.#sharing.turn(on));
  }

  newCode(): Promise<void> {
    return this.#put(this.#sharing.newCode());
  }

  revoke(device: string): Promise<void> {
    return this.#put(this.#sharing.revoke(device));
  }

  qr(address: string): Promise<string | null> {
    return this.#sharing.qr(address).catch(() => null);
  }

  /** One that was asked for before what is known is too late. */
  #take(turn: number, share: ShareState): void {
    if (turn < this.#answered) return;
    this.#answered = turn;
    this.store.update({ share });
  }

  async #put(asked: Promise<ShareState>): Promise<void> {
    const turn = ++this.#asked;
    try {
      this.#take(turn, await asked);
      this.store.update({ refusal: null });
    } catch (error) {
      if (!(error instanceof WorkError)) throw error;
      this.store.update({ refusal: { problem: error.problem, cure: error.cure } });
    }
  }
}

const desks = new WeakMap<Bench, ShareDesk>();

/** Null where no server is behind the page. */
export function shareDeskOf(bench: Bench): ShareDesk | null {
  if (bench.sharing === null) return null;
  const known = desks.get(bench);
  if (known !== undefined) return known;
  const desk = new ShareDesk(bench.sharing, bench.library);
  desk.follow(bench.news);
  desks.set(bench, desk);
  return desk;
}
