// Builds the workbench and the command: npm run build
import { build } from "vite";

for (const configFile of ["vite.config.ts", "vite.phone.config.ts", "vite.node.config.ts"])
  await build({ configFile, logLevel: "warn" });
