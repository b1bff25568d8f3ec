/** The plans that come with the program, in the page itself: there without any server. Those that are briefs have no light
 * yet: they are for the shell. */
const TEXTS = import.meta.glob<string>(["../../examples/*.json", "!../../examples/brief-*.json"], {
  query: "?raw",
  import: "default",
  eager: true,
});

export interface ExamplePlan {
  readonly name: string;
  readonly text: string;
}

export const EXAMPLES: readonly ExamplePlan[] = Object.entries(TEXTS)
  .map(([path, text]) => ({ name: path.replace(/^.*\/|\.json$/g, ""), text }))
  .sort((a, b) => a.name.localeCompare(b.name));
