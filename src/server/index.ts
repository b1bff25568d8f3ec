export { type Print, printInProcess } from "./print-process.ts";
export { createRoutes, type SheetRequest } from "./routes.ts";
export { type Running, startServer } from "./serve.ts";
