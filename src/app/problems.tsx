import type { FileNews } from "./file-actions.ts";

/** What is wrong with a file, each with the place and the cure. The plan on the table stays as it is. */
export function Problems({ news, onClose }: { news: FileNews; onClose: (() => void) | null }) {
  return (
    <section class="news" role="alert" aria-labelledby="news-title">
      <h2 id="news-title" class="alert">
        {news.heading}
      </h2>
      {news.problems.length > 0 && (
        <ul class="problems">
          {news.problems.map((problem) => (
            <li key={`${problem.path} ${problem.what}`}>
              <code>{problem.path}</code> {problem.what}
            </li>
          ))}
        </ul>
      )}
      {onClose !== null && (
        <button type="button" onClick={onClose}>
          close
        </button>
      )}
    </section>
  );
}
