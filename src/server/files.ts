/** Files of the built workbench: only what lies in its folder, by exact name. */
import { readdirSync, readFileSync } from "node:fs";
import { join, posix } from "node:path";

const TYPES: Record<string, string> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".webp": "image/webp",
  ".woff2": "font/woff2",
  ".woff": "font/woff",
  ".json": "application/json",
  ".webmanifest": "application/manifest+json",
};

export interface ServedFile {
  readonly bytes: Buffer;
  readonly type: string;
  /** named after its content: may be kept for ever */
  readonly hashed: boolean;
}

/** All files of the folder by their address. Listing them once means that no address can name anything else. */
export function listFiles(folder: string): Map<string, string> {
  const out = new Map<string, string>();
  const walk = (at: string) => {
    for (const entry of readdirSync(join(folder, at), { withFileTypes: true })) {
      const name = posix.join(at, entry.name);
      if (entry.isDirectory()) walk(name);
      else if (entry.isFile()) out.set(`/${name}`, join(folder, name));
    }
  };
  walk("");
  return out;
}

export function readServed(files: ReadonlyMap<string, string>, address: string): ServedFile | null {
  const name = address === "/" ? "/index.html" : address;
  const path = files.get(name);
  if (path === undefined) return null;
  const ending = /\.[a-z0-9]+$/.exec(name)?.[0] ?? "";
  const bytes = readIfThere(path);
  return (
    bytes && {
      bytes,
      type: TYPES[ending] ?? "application/octet-stream",
      hashed: name.startsWith("/assets/"),
    }
  );
}

/** Null where it has gone since it was listed: the workbench was built anew. */
function readIfThere(path: string): Buffer | null {
  try {
    return readFileSync(path);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ENOENT") return null;
    throw error;
  }
}
