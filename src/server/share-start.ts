/** Sharing as the command offers it: with this machine's networks, its clock and processes of its own. */
import { networkInterfaces } from "node:os";
import { tellFault } from "./fault.ts";
import { listFiles } from "./files.ts";
import { ShareProcess } from "./live-process.ts";
import { createSharing, type OwnSharing, type SharingParts } from "./share.ts";
import { shareAddresses } from "./share-networks.ts";

export interface ShareOptions {
  /** folder of the built page of a paired device */
  readonly folder: string;
  /** the built file that calls `serveShareWork` */
  readonly script: URL;
}

export function offerSharing(
  { folder, script }: ShareOptions,
  parts: Pick<SharingParts, "store" | "plans" | "library" | "news" | "hand">,
): OwnSharing {
  return createSharing({
    ...parts,
    files: filesOf(folder),
    meters: new ShareProcess(script),
    sheets: new ShareProcess(script),
    addresses: () => shareAddresses(networkInterfaces(), process.env.TAPEMARK_SHARE_ON),
    clock: { now: () => new Date(), elapsed_ms: () => performance.now() },
    tellFault,
  });
}

/** None where it was not built: that is said when somebody wants to share. */
function filesOf(folder: string): ReadonlyMap<string, string> {
  try {
    return listFiles(folder);
  } catch {
    return new Map();
  }
}
