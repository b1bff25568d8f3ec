/** The module at a path under the repository's root, bundled as users get it. */
// biome-ignore lint/suspicious/noExplicitAny: whoever asks names the module's own type
export function bundled(path: string): Promise<any>;
/** The same as a file, for a process of its own: its absolute path. */
export function bundle(path: string): Promise<string>;
