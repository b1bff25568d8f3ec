import { Component, type ComponentChildren } from "preact";

interface SteadyProps {
  /** what it is drawn from */
  readonly on: readonly unknown[];
  readonly draw: () => ComponentChildren;
}

/** A part of a drawing that is made again only when what it is drawn from has changed: while one thing is dragged the
 * others cost nothing. */
export class Steady extends Component<SteadyProps> {
  override shouldComponentUpdate({ on }: SteadyProps): boolean {
    const before = this.props.on;
    return on.length !== before.length || on.some((value, i) => !Object.is(value, before[i]));
  }

  render(): ComponentChildren {
    return this.props.draw();
  }
}
