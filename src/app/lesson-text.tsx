import type { Topic } from "./lesson-plan.ts";

/** What a page says. Each sentence is shown by the plan beside it, or its source is named. */
export function LessonText({ topic }: { topic: Topic }) {
  return topic === "direction" ? <DirectionText /> : <PowerText />;
}

function DirectionText() {
  return (
    <>
      <p class="lead">
        Direction decides where shadows fall. Power decides how bright it is. They are two things, and each
        can be changed without the other.
      </p>
      <h2>The shadow is thrown away from the light</h2>
      <p>
        Carry the light round the sitter and the nose’s shadow swings to the other side. Raise it and the
        shadow drops. Butterfly, loop, Rembrandt and split are only names for where it lies: under the nose,
        aside, joined to the dark cheek, lost in a dark half.
      </p>
      <h2>Distance leaves it where it is</h2>
      <p>
        Bring the light nearer along its own line: the face gets brighter, the pattern stays. Near by this is
        not quite true. From half a metre, forehead and chin no longer see the light from the same side, and a
        front that is wide for its distance reaches round the nose, so that the shadow’s edge fades over a
        longer way.
      </p>
      <h2>The head counts, not the room</h2>
      <p>
        Direction is measured from where the nose points. Turn the head toward the light and it is as if the
        light had moved. Walk round with the camera while the head keeps still, and the light on the face does
        not change at all; only what you see of it does: broad, when the lit side is turned to you, short,
        when it is turned away. If the nose follows the lens, every step of the camera changes the light on
        the face.
      </p>
    </>
  );
}

function PowerText() {
  return (
    <>
      <p class="lead">
        Power is counted in stops: each stop up is twice the light, each stop down half. Distance changes it,
        and so does the dial. Neither changes where the light comes from.
      </p>
      <h2>Twice as far is a quarter</h2>
      <p>
        Light from a point spreads over four times the area at twice the distance: two stops less. That is the
        inverse square law. Nearer by three tenths of the distance gives one stop more; half as far again
        takes a little more than one.
      </p>
      <h2>It fails near a wide front</h2>
      <p>
        A front is no point: from near by, its rim is farther off than its middle and shines aslant. A flat
        receptor on the axis of a round, even front reads 0.3 stop less than the law from one width away, 0.1
        from two, 0.01 from five (1 / 4k² at k widths: the five-times rule, IES definition 9.1.1).
      </p>
      <h2>Near light falls off fast, far light slowly</h2>
      <p>
        The lines on the floor lie a stop apart. They crowd together near the light: there a step back costs
        the sitter a stop, and the wall behind goes dark. From far away the same step costs next to nothing.
        To darken the background, bring the light nearer and turn it down; to light a row of people evenly,
        take it away and turn it up.
      </p>
    </>
  );
}
