export { createRoutes, type SheetRequest } from "./routes.ts";
export { type Running, startServer } from "./serve.ts";
