/** The narrow ports of the library of shoots, and the news that windows and paired devices follow. */
import type {
  Pick as FramePick,
  FrameRow,
  FrameRows,
  Placed,
  PlanVersion,
  Shoot,
  ShootChoices,
  ShootFields,
  ShootQuery,
  ShootRows,
  ShootWhole,
  SidecarsWritten,
} from "../shoots/index.ts";

/** Shoots as app and server use them. What does not exist any more: WorkError with its cure; what another window changed
 * meanwhile: SaveConflict. */
export interface ShootLibrary {
  find(query: ShootQuery): Promise<ShootRows>;
  choices(): Promise<ShootChoices>;
  whole(id: string): Promise<ShootWhole>;
  /** a title of its own where none is given */
  create(fields: Partial<ShootFields>): Promise<Shoot>;
  /** `revision` is the one that was seen */
  change(id: string, revision: number, fields: Partial<ShootFields>): Promise<Shoot>;
  /** the shoot that a work lies in: every kept work lies in one; null where no such work is kept */
  shootOf(key: string): Promise<string | null>;
  move(key: string, shoot: string): Promise<void>;
  keepVersion(key: string, name: string): Promise<PlanVersion>;
  renameVersion(id: string, name: string): Promise<PlanVersion>;
  /** unchecked */
  versionPlan(id: string): Promise<unknown>;
  frames(shoot: string, offset: number, limit: number): Promise<FrameRows>;
  pick(frame: string, pick: FramePick): Promise<FrameRow>;
  /** null where it is not in the library */
  frame(id: string): Promise<FrameRow | null>;
  /** what the workbench read of a plan, for the search: the pattern on the face that it is about */
  noteRead(key: string, read: { readonly pattern: string | null }): Promise<void>;
  placed(key: string): Promise<readonly Placed[]>;
  place(key: string, thing: string, isPlaced: boolean, by: string): Promise<void>;
  /** stars and selects into XMP sidecars beside the photographs, merged with what is there */
  writeSidecars(shoot: string): Promise<SidecarsWritten>;
}

/** Something changed. Who wants more asks for it. */
export type News =
  | { readonly kind: "work"; readonly key: string; readonly revision: number; readonly by: string | null }
  /** the list of shoots, or the one that is named */
  | { readonly kind: "shoots"; readonly shoot: string | null }
  | { readonly kind: "placed"; readonly key: string }
  /** which work is on the table; what comes from a camera belongs to it */
  | { readonly kind: "hand"; readonly key: string | null }
  | { readonly kind: "share" }
  /** the gear book, or the shelf */
  | { readonly kind: "gear" | "shelf" };

export interface NewsFeed {
  /** The answer ends it. */
  subscribe(listener: (news: News) => void): () => void;
}

export interface NewsDesk extends NewsFeed {
  tell(news: News): void;
}

/** Who may look from another device, as the workbench shows it. */
export interface ShareState {
  readonly isOn: boolean;
  /** "http://192.168.1.20:7285/", one a network that this machine is in; empty while it is off */
  readonly addresses: readonly string[];
  /** to type on the device, used once; null while it is off or used up */
  readonly code: { readonly digits: string; readonly endsAt: string } | null;
  readonly devices: readonly {
    readonly id: string;
    readonly name: string;
    readonly pairedAt: string;
    readonly isLooking: boolean;
  }[];
  /** why it is not on although it was asked for; null where all is well */
  readonly problem: { readonly problem: string; readonly cure: string } | null;
}

export interface Sharing {
  state(): Promise<ShareState>;
  /** off again at exit, always */
  turn(on: boolean): Promise<ShareState>;
  newCode(): Promise<ShareState>;
  revoke(device: string): Promise<ShareState>;
  /** an SVG picture of the address; null while it is off */
  qr(address: string): Promise<string | null>;
}
