interface ReadingLineProps {
  readonly term: string;
  readonly strong: string;
  readonly rest: string;
  readonly detail: string;
  readonly over?: boolean;
}

/** One quantity as it is read: the number large, what it is beside it, how it was read after it. */
export function ReadingLine({ term, strong, rest, detail, over = false }: ReadingLineProps) {
  return (
    <div class="reading-line">
      <dt class="visually-hidden">{term}</dt>
      <dd>
        <span class={over ? "alert" : undefined}>
          <strong class="middle">{strong}</strong> {rest}
        </span>{" "}
        <span class="quiet line">{detail}</span>
      </dd>
    </div>
  );
}
