#!/usr/bin/env node
// Starts the built command; says what to do where it cannot.
import { existsSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const root = join(dirname(fileURLToPath(import.meta.url)), "..");
const [major, minor] = process.versions.node.split(".").map(Number);
const entry = join(root, "dist", "node", "entry.js");
if (major < 20 || (major === 20 && minor < 19)) {
  console.error(`tapemark: Node ${process.versions.node} is too old; install Node 20.19 or newer`);
  process.exitCode = 3;
} else if (!existsSync(entry)) {
  console.error("tapemark: not built yet; run npm start once, or npm run build");
  process.exitCode = 3;
} else {
  try {
    const { main } = await import(pathToFileURL(entry).href);
    process.exitCode = await main(process.argv.slice(2), root);
  } catch (error) {
    console.error(`tapemark: could not start: ${error.message.split("\n")[0]}; run npm ci and npm run build`);
    process.exitCode = 3;
  }
}
