/** The workbench's server: bound to this machine alone. */
import { randomUUID } from "node:crypto";
import type { AddressInfo } from "node:net";
import type { Desk, FrameShelf } from "../files/index.ts";
import {
  clearArriving,
  copyLibrary,
  createFrameShelf,
  createGearShelf,
  createHand,
  createPlanShelf,
  createShelfStore,
  createShoots,
  createWorks,
  type Library,
  type MakeCopy,
  savedWorkNoter,
  startDailyCopies,
  watchOthers,
  writeSidecars,
} from "../library/index.ts";
import { WorkError } from "../workbench/index.ts";
import { listFiles } from "./files.ts";
import { listenHere } from "./listen.ts";
import { createNewsDesk, toldGear, toldShelf, toldStore } from "./news.ts";
import type { Print } from "./print-process.ts";
import { createRoutes, type RouteParts } from "./routes.ts";
import { offerSharing, type ShareOptions } from "./share-start.ts";

export interface ServeOptions {
  /** folder of the built workbench */
  readonly appFolder: string;
  readonly library: Library;
  /** left out: in this process */
  readonly makeCopy?: MakeCopy;
  readonly opened: RouteParts["opened"];
  readonly sheet: RouteParts["sheet"];
  /** record and contact sheets; left out where none are made */
  readonly print?: Print;
  /** one that keeps what it reads there */
  readonly desk: (shelf: FrameShelf) => Desk;
  /** what paired devices are served with; left out where nothing is shared */
  readonly share?: ShareOptions;
  /** a port asked for by hand; null takes the usual one, or a free one where that is busy */
  readonly port: number | null;
}

export interface Running {
  readonly url: string;
  /** something worth saying about the start; null where all is as usual */
  readonly note: string | null;
  stop(): Promise<void>;
}

export async function startServer(options: ServeOptions): Promise<Running> {
  let files: Map<string, string>;
  try {
    files = listFiles(options.appFolder);
  } catch {
    throw new WorkError("the workbench has not been built", "run npm start, or npm run build");
  }
  const { library } = options;
  const around = { now: () => new Date(), newId: randomUUID };
  const news = createNewsDesk();
  const works = createWorks(library, { ...around, alongside: savedWorkNoter(library, { ...around, news }) });
  const hand = createHand(library, news);
  const shoots = createShoots(library, { ...around, news, writeSidecars });
  const store = toldStore(works, news);
  const shelf = createFrameShelf(library, { ...around, news });
  const desk = options.desk(shelf);
  clearArriving(library);
  const copies = startDailyCopies(library, {
    make: options.makeCopy ?? ((path, target) => copyLibrary(path, target, { never: "over" })),
    now: around.now,
    tell: (line) => console.error(`tapemark: ${line}`),
  });
  const sharing =
    options.share &&
    offerSharing(options.share, {
      store,
      plans: createPlanShelf(library),
      library: shoots,
      news,
      hand: () => hand.key(),
    });
  let port = 0;
  const app = createRoutes({
    port: () => port,
    files,
    news,
    hand,
    archives: { ...around, library, copies, news },
    store,
    prints: options.print && { library, print: options.print },
    sharing,
    gear: toldGear(createGearShelf(library, around), news),
    shelf: toldShelf(createShelfStore(library, around), news),
    opened: options.opened,
    sheet: options.sheet,
    desk,
    shoots,
    thumbnail: (frame) => shelf.thumbnail(frame),
  });
  const { server, note } = await listenHere(app.fetch, options.port);
  ({ port } = server.address() as AddressInfo);
  const leaveOthers = watchOthers(library, (each) => news.tell(each));
  return {
    note,
    url: `http://127.0.0.1:${port}/`,
    async stop() {
      copies.stop();
      leaveOthers();
      // first: a page that waits for frames holds a connection
      await Promise.all([desk.stop(), sharing?.stop()]);
      await new Promise<void>((resolve) => {
        server.close(() => resolve());
        // open connections of a browser must not keep the command from ending
        server.closeAllConnections();
      });
    },
  };
}
