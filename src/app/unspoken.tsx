import type { ComponentChildren, SVGAttributes } from "preact";

interface UnspokenProps extends Omit<SVGAttributes<SVGGElement>, "children"> {
  readonly children?: ComponentChildren;
}

/** A part of a drawing that is only for the eye: what it shows is said in words elsewhere. */
export function Unspoken({ children, ...rest }: UnspokenProps) {
  return (
    // biome-ignore lint/a11y/noAriaHiddenOnFocusable: a group in a drawing takes no focus
    <g aria-hidden="true" {...rest}>
      {children}
    </g>
  );
}
