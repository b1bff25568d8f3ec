/** Who may ask the sharing port. It lies open to everybody in the same network, so its guard is stricter than that of the
 * workbench, and says nothing to those whom it turns away. */

export interface GuardedRequest {
  readonly method: string;
  readonly header: (name: string) => string | undefined;
}

const READS = new Set(["GET", "HEAD"]);

/** Whether a request comes from the page that is served here, or from an address typed by hand.
 * Domain  `hosts`: "192.168.1.20:7285", the addresses that are shown */
export function isFromOwnPage({ method, header }: GuardedRequest, hosts: readonly string[]): boolean {
  const host = header("host");
  // by any other name it is somebody else's page that was pointed at this address
  if (host === undefined || !hosts.includes(host)) return false;
  const origin = header("origin");
  // every browser says where a request that writes comes from; what does not say it is not the page
  if (origin === undefined ? !READS.has(method) : origin !== `http://${host}`) return false;
  // browsers say this where they trust the connection; a typed address is "none"
  const site = header("sec-fetch-site");
  return site === undefined || site === "same-origin" || (site === "none" && READS.has(method));
}

export function isJson(type: string | undefined): boolean {
  return /^application\/json\s*(;|$)/i.test(type ?? "");
}

/** On every answer. Pictures are SVG that the page makes of what it was sent; nothing else comes from anywhere. */
export const SHARE_HEADERS: Readonly<Record<string, string>> = {
  "content-security-policy":
    "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; connect-src 'self'; manifest-src 'self'; img-src 'self' data: blob:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
  "cache-control": "no-store",
  "cross-origin-opener-policy": "same-origin",
  "cross-origin-resource-policy": "same-origin",
  "permissions-policy": "camera=(), geolocation=(), microphone=()",
  "referrer-policy": "no-referrer",
  "x-content-type-options": "nosniff",
  "x-frame-options": "DENY",
};
