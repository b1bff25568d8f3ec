import { createComputer } from "../workbench/index.ts";
import { hostComputer } from "./worker-host.ts";
import type { ToWorker } from "./worker-protocol.ts";

const receive = hostComputer(createComputer(), (message, transfer) =>
  self.postMessage(message, { transfer }),
);
self.addEventListener("message", (event: MessageEvent<ToWorker>) => receive(event.data));
