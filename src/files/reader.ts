/** Somebody who reads photographs: what is asked, what is told. */
import type { CardLevel, PhotoExif, PhotoReading } from "../testframe/index.ts";
import type { GearBook } from "../workbench/index.ts";

/** A file that lies there, or bytes that came in; `name` is what people know it by. */
export type PhotoSource =
  | { readonly name: string; readonly path: string }
  | { readonly name: string; readonly bytes: Uint8Array };

export interface ReadOptions {
  /** curves of camera bodies, as the gear book keeps them */
  readonly bodies: GearBook["bodies"];
  /** with a small JPEG for the screen */
  readonly preview: boolean;
}

export interface ReadPhoto {
  /** of name and content: the same file read again has the same */
  readonly id: string;
  readonly reading: PhotoReading;
  /** JPEG, upright, sRGB, at most 1600 pixels on its longer side; null where it was not asked for */
  readonly preview: Uint8Array | null;
  /** the same, at most 320 pixels */
  readonly thumbnail: Uint8Array | null;
}

/** A frame of a bracket: the grey card in its middle. */
export interface ReadCard {
  readonly exif: PhotoExif;
  readonly card: CardLevel;
}

export interface PhotoReader {
  /** Errors  WorkError in plain words where the file is no photograph or cannot be read */
  read(source: PhotoSource, options: ReadOptions): Promise<ReadPhoto>;
  /** The preview alone. Errors  as `read` */
  picture(source: PhotoSource): Promise<Uint8Array>;
  /** Errors  as `read` */
  readCard(source: PhotoSource): Promise<ReadCard>;
  /** ends it at once; what it was at is rejected with Stopped */
  stop(): Promise<void>;
}
