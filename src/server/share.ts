/** Sharing with paired devices: a second listener that is off until it is asked for, and off again at the end. */
import type {
  NewsDesk,
  PlanShelf,
  PlanStore,
  ShareState,
  Sharing,
  ShootLibrary,
} from "../workbench/index.ts";
import { applySentReading, livePlan, WorkError } from "../workbench/index.ts";
import { Devices } from "./devices.ts";
import type { TellFault } from "./fault.ts";
import { LiveDesk } from "./live-desk.ts";
import { LiveMeters } from "./live-meters.ts";
import type { ShareAnswer, ShareJob } from "./live-words.ts";
import { writePlaced, writeReading } from "./live-write.ts";
import { CODE_LIVES_MS, type PairingClock, PairingCode } from "./pairing-code.ts";
import { PairingLimits } from "./pairing-limits.ts";
import { createPhoneRoutes } from "./phone-routes.ts";
import type { SheetRequest } from "./routes.ts";
import { type Listening, listenAt, type ShareLimits, USUAL_SHARE_PORT } from "./share-listen.ts";

/** A process of its own for what takes long; `ShareProcess`. */
export interface ShareWorker {
  ask(job: ShareJob): Promise<ShareAnswer>;
  stop(): Promise<void>;
}

export interface SharingParts {
  /** the built page of a paired device, by address; empty where it was not built */
  readonly files: ReadonlyMap<string, string>;
  /** of which every save is told in the news */
  readonly store: Pick<PlanStore, "load" | "save">;
  readonly plans: PlanShelf;
  readonly library: Pick<ShootLibrary, "placed" | "place">;
  readonly news: NewsDesk;
  /** the work on the table */
  readonly hand: () => string | null;
  /** two, so that a sheet does not wait for readings */
  readonly meters: ShareWorker;
  readonly sheets: ShareWorker;
  /** the addresses that may be listened at now */
  readonly addresses: () => readonly string[];
  readonly clock: PairingClock;
  /** the port to begin with; the usual one when left out */
  readonly port?: number;
  readonly limits?: ShareLimits;
  readonly tellFault: TellFault;
}

export interface OwnSharing extends Sharing {
  stop(): Promise<void>;
}

/** A network that is left for a moment is not gone. */
const LOOK_EVERY_MS = 5000;
const MISSED = 2;

const NO_NETWORK = {
  problem: "this machine is in no private network",
  cure: "join the studio's Wi-Fi, or switch a phone's hotspot on and join that, and switch sharing on again",
};
const NOT_BUILT = {
  problem: "the page for paired devices has not been built",
  cure: "run npm start, or npm run build",
};

export function createSharing(parts: SharingParts): OwnSharing {
  return new SharingDesk(parts);
}

class SharingDesk implements OwnSharing {
  readonly #parts: SharingParts;
  readonly #code: PairingCode;
  readonly #limits: PairingLimits;
  readonly #devices: Devices;
  readonly #meters: LiveMeters;
  readonly #live: LiveDesk;
  readonly #fetch: ReturnType<typeof createPhoneRoutes>["fetch"];
  #listening: Listening | null = null;
  #problem: ShareState["problem"] = null;
  /** switching on and off happens one after the other */
  #turning: Promise<unknown> = Promise.resolve();
  #watch: NodeJS.Timeout | null = null;
  #expiry: NodeJS.Timeout | null = null;
  #sheet: Promise<unknown> = Promise.resolve();
  readonly #missed = new Map<string, number>();

  constructor(parts: SharingParts) {
    this.#parts = parts;
    const { clock, tellFault, hand, news, store, plans, library } = parts;
    const { elapsed_ms } = clock;
    this.#code = new PairingCode(clock);
    this.#limits = new PairingLimits(elapsed_ms);
    this.#devices = new Devices({ now: clock.now, elapsed_ms, onChange: () => this.#tell() });
    this.#meters = new LiveMeters({
      process: parts.meters,
      onRead: (read) => this.#live.meterRead(read),
      tellFault,
    });
    this.#live = new LiveDesk({
      store: plans,
      library,
      news,
      hand,
      draw: livePlan,
      meters: this.#meters,
      elapsed_ms,
      tellFault,
    });
    const writing = { store, library, hand, put: applySentReading };
    const routes = createPhoneRoutes({
      files: parts.files,
      hosts: () => this.#hosts(),
      code: this.#code,
      limits: this.#limits,
      devices: this.#devices,
      live: this.#live,
      place: (thing, isPlaced, device) => writePlaced(writing, thing, isPlaced, device),
      write: (sent, device) => writeReading(writing, sent, device),
      sheet: (options) => this.#sheetOf(options),
      elapsed_ms,
      tellFault,
    });
    this.#fetch = routes.fetch;
  }

  async state(): Promise<ShareState> {
    const isOn = this.#listening !== null;
    return {
      isOn,
      addresses: this.#hosts().map((host) => `http://${host}/`),
      code: isOn ? this.#code.shown() : null,
      devices: this.#devices.list().map(({ id, name, pairedAt, streams }) => ({
        id,
        name,
        pairedAt,
        isLooking: streams.size > 0,
      })),
      problem: this.#problem,
    };
  }

  turn(on: boolean): Promise<ShareState> {
    const turned = this.#turning.then(() => (on ? this.#turnOn() : this.#turnOff(null)));
    this.#turning = turned.catch(() => {});
    return turned.then(() => this.state());
  }

  async newCode(): Promise<ShareState> {
    if (this.#listening === null)
      throw new WorkError("sharing is off, so there is nothing to type a code into", "switch it on first");
    this.#makeCode();
    return this.state();
  }

  async revoke(device: string): Promise<ShareState> {
    this.#devices.revoke(device, "this device was taken off the list at the workbench");
    return this.state();
  }

  async qr(address: string): Promise<string | null> {
    if (!(await this.state()).addresses.includes(address)) return null;
    const { toString: draw } = await import("qrcode");
    return draw(address, { type: "svg", errorCorrectionLevel: "M", margin: 4 });
  }

  async stop(): Promise<void> {
    await this.turn(false);
    await Promise.all([this.#meters.stop(), this.#parts.sheets.stop()]);
  }

  async #turnOn(): Promise<void> {
    if (this.#listening !== null) return;
    const addresses = this.#parts.addresses();
    if (this.#parts.files.size === 0) this.#problem = NOT_BUILT;
    else if (addresses.length === 0) this.#problem = NO_NETWORK;
    else await this.#listen(addresses);
    this.#tell();
  }

  async #listen(addresses: readonly string[]): Promise<void> {
    const usual = this.#parts.port ?? USUAL_SHARE_PORT;
    try {
      this.#listening = await listenAt(
        addresses,
        usual,
        (request, env) => this.#fetch(request, env),
        this.#parts.limits,
      );
    } catch (error) {
      if (!(error instanceof WorkError)) throw error;
      this.#problem = { problem: error.problem, cure: error.cure };
      return;
    }
    this.#problem =
      usual === 0 || this.#listening.port === usual
        ? null
        : {
            problem: `the usual port ${usual} is busy (another Tapemark?), so port ${this.#listening.port} was taken`,
            cure: "use the address as it is shown now; one that a phone has kept does not work",
          };
    this.#missed.clear();
    this.#watch = setInterval(() => this.#lookAround(), LOOK_EVERY_MS);
    this.#watch.unref();
    this.#makeCode();
  }

  async #turnOff(why: ShareState["problem"]): Promise<void> {
    const listening = this.#listening;
    this.#problem = why;
    if (listening === null) return;
    this.#listening = null;
    if (this.#watch) clearInterval(this.#watch);
    if (this.#expiry) clearTimeout(this.#expiry);
    this.#watch = this.#expiry = null;
    this.#code.forget();
    this.#devices.revokeAll("sharing was switched off at the workbench");
    // the last words are on their way: streams that were told close by themselves
    await new Promise((resolve) => setTimeout(resolve, 50));
    await listening.stop();
    this.#tell();
  }

  /** A network that was left is not listened at any more: the same address may be another network's next. */
  #lookAround(): void {
    const listening = this.#listening;
    if (listening === null) return;
    const now = this.#parts.addresses();
    for (const address of listening.addresses) {
      const missed = now.includes(address) ? 0 : (this.#missed.get(address) ?? 0) + 1;
      this.#missed.set(address, missed);
      if (missed >= MISSED) this.#left(listening, address);
    }
  }

  #left(listening: Listening, address: string): void {
    listening.leave(address);
    const gone = {
      problem: `this machine has left the network in which it was ${address}`,
      cure: "switch sharing off and on again in the network that it is in now",
    };
    this.#problem = gone;
    if (listening.addresses.length > 0) this.#tell();
    else this.#turning = this.#turning.then(() => this.#turnOff(gone));
  }

  #makeCode(): void {
    this.#code.make();
    if (this.#expiry) clearTimeout(this.#expiry);
    this.#expiry = setTimeout(() => this.#tell(), CODE_LIVES_MS + 100);
    this.#expiry.unref();
    this.#tell();
  }

  #hosts(): string[] {
    const listening = this.#listening;
    return listening === null ? [] : listening.addresses.map((address) => `${address}:${listening.port}`);
  }

  #tell(): void {
    this.#parts.news.tell({ kind: "share" });
  }

  /** One at a time, whoever asks. */
  async #sheetOf(options: SheetRequest): Promise<Uint8Array | null> {
    const key = this.#parts.hand();
    const saved = key === null ? null : await this.#parts.plans.load(key);
    if (saved === null) return null;
    const text = JSON.stringify(saved.plan);
    const made = this.#sheet.then(() => this.#parts.sheets.ask({ want: "sheet", text, options }));
    this.#sheet = made.catch(() => {});
    const answer = await made;
    if ("sheet" in answer) return answer.sheet;
    if ("problem" in answer)
      throw new WorkError(answer.problem, answer.cure ?? "print it from the workbench");
    throw new Error("a sheet was asked for and meters came");
  }
}
