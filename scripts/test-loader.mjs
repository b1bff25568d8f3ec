// Lets Node load the sources as they are, for tests: through Vite's runner every call from one module into another is a
// look-up, and what computes takes a third longer. Given to the tests' threads with --import.
import { register } from "node:module";

register("./test-loader-hooks.mjs", import.meta.url);
