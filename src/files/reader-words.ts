/** What goes between a program and the process that reads its photographs: plain data both ways. */
import type { PhotoSource, ReadCard, ReadOptions, ReadPhoto } from "./reader.ts";

export type Asked =
  | { readonly want: "photo"; readonly source: PhotoSource; readonly options: ReadOptions }
  | { readonly want: "picture" | "card"; readonly source: PhotoSource };

export type Answer =
  | { readonly result: ReadPhoto | Uint8Array | ReadCard }
  /** nothing that was foreseen: no cure is known */
  | { readonly problem: string; readonly cure: string | null };

export type Told = Answer | { readonly ready: true };

/** What the other side does with it. */
export interface PhotoWork {
  read(source: PhotoSource, options: ReadOptions): Promise<ReadPhoto>;
  picture(source: PhotoSource): Promise<Uint8Array>;
  readCard(source: PhotoSource): Promise<ReadCard>;
}
