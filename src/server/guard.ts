/** Who may ask: this machine's own pages and nobody else. The reasons for each line are in docs/decisions. */

/** Hosts under which a loopback server may be asked for; any other name is a page of somebody else's that was
 * pointed at this address (DNS rebinding). */
const HOST_NAMES = ["127.0.0.1", "localhost", "[::1]"];

export interface Refusal {
  readonly problem: string;
  readonly cure: string;
}

/** Why a request is refused; null where it may pass. `port` is the one that the server listens on. */
export function refusalOf(headers: { get(name: string): string | null }, port: number): Refusal | null {
  const host = headers.get("host");
  const allowed = HOST_NAMES.map((name) => `${name}:${port}`);
  if (host === null || !allowed.includes(host.toLowerCase())) {
    return {
      problem: `requests for the host "${host ?? ""}" are not answered`,
      cure: `open http://127.0.0.1:${port}/ instead`,
    };
  }
  const origin = headers.get("origin");
  if (origin !== null && !allowed.some((name) => origin.toLowerCase() === `http://${name}`)) {
    return { problem: `requests from "${origin}" are not answered`, cure: "use the workbench's own page" };
  }
  // browsers that say where a request comes from: only the page itself and addresses typed by hand
  const site = headers.get("sec-fetch-site");
  if (site !== null && site !== "same-origin" && site !== "none") {
    return {
      problem: `requests from another site (${site}) are not answered`,
      cure: "use the workbench's own page",
    };
  }
  return null;
}

/** Set on every answer: nothing is fetched from elsewhere, nothing frames the page, memory may be shared by workers. */
export const SAFE_HEADERS: Readonly<Record<string, string>> = {
  "content-security-policy":
    "default-src 'self'; connect-src 'self'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self'; manifest-src 'self'; img-src 'self' data: blob:; object-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
  "cross-origin-opener-policy": "same-origin",
  "cross-origin-embedder-policy": "require-corp",
  "cross-origin-resource-policy": "same-origin",
  "x-content-type-options": "nosniff",
  "referrer-policy": "no-referrer",
};
