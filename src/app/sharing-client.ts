/** The switch for sharing, asked over HTTP. */
import { type ShareState, type Sharing, WorkError } from "../workbench/index.ts";
import { ask } from "./server.ts";

const SHARE = "./api/share";
/** Listening at a port, and taking leave of those who look. */
const TURN_MS = 15_000;

async function told(address: string, request?: RequestInit): Promise<ShareState> {
  return (await (await ask(address, request)).json()) as ShareState;
}

export function connectSharing(): Sharing {
  return {
    state: () => told(SHARE),
    turn: (on) =>
      told(SHARE, {
        method: "PUT",
        headers: { "content-type": "application/json" },
        body: JSON.stringify({ on }),
        signal: AbortSignal.timeout(TURN_MS),
      }),
    newCode: () => told(`${SHARE}/code`, { method: "POST" }),
    revoke: (device) => told(`${SHARE}/devices/${encodeURIComponent(device)}`, { method: "DELETE" }),
    async qr(address) {
      try {
        return await (await ask(`${SHARE}/qr?address=${encodeURIComponent(address)}`)).text();
      } catch (error) {
        // it was switched off in between, or the network was left
        if (error instanceof WorkError) return null;
        throw error;
      }
    },
  };
}
