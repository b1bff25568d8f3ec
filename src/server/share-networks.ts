/** The addresses of this machine under which a phone beside it can reach it, and nobody from outside. */
import type { NetworkInterfaceInfo } from "node:os";

/** RFC 1918 and RFC 3927: what a router of a studio, a hotspot or a cable between two machines hands out. */
const PRIVATE = [/^10\./, /^172\.(1[6-9]|2\d|3[01])\./, /^192\.168\./, /^169\.254\./];

/** Networks that lie inside this machine: no phone is in them. */
const INSIDE = /^(docker|veth|br-|virbr|vmnet|vboxnet|lxc|podman|cni)/i;

/** What a phone is most likely to be in comes first. */
const USUAL = /^(en|eth|wl|wi-?fi|ethernet)/i;

/** One address a network that this machine is in.
 * Domain  `chosen` is an address that somebody named by hand (TAPEMARK_SHARE_ON): it alone is taken, private or not, but
 *         only while it is this machine's */
export function shareAddresses(
  interfaces: NodeJS.Dict<NetworkInterfaceInfo[]>,
  chosen: string | undefined,
): string[] {
  const own = Object.entries(interfaces).flatMap(([name, infos]) =>
    (infos ?? []).filter(({ family }) => family === "IPv4").map((info) => ({ ...info, name })),
  );
  if (chosen) return own.some(({ address }) => address === chosen) ? [chosen] : [];
  return own
    .filter(
      ({ address, internal, name }) =>
        !internal && !INSIDE.test(name) && PRIVATE.some((range) => range.test(address)),
    )
    .sort((a, b) => Number(USUAL.test(b.name)) - Number(USUAL.test(a.name)))
    .map(({ address }) => address);
}
