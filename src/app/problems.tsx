import type { FileNews } from "./file-actions.ts";

/** What is wrong with a file, each with the place and the cure, and where to go on. The plan on the table stays. */
export function Problems({ news, onClose }: { news: FileNews; onClose: () => void }) {
  return (
    <section class="news" role="alert" aria-labelledby="news-title">
      <h2 id="news-title" class="alert">
        {news.heading}
      </h2>
      {news.problems.length > 0 && (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a long list is scrolled by keyboard
        <ul class="problems" tabIndex={0} aria-label="What is wrong">
          {news.problems.map((problem) => (
            <li key={`${problem.path} ${problem.what}`}>
              <code>{problem.path}</code> {problem.what}
            </li>
          ))}
        </ul>
      )}
      <p class="row">
        {news.ways?.map((way) => (
          <button key={way.text} type="button" onClick={way.act}>
            {way.text}
          </button>
        ))}
        <button type="button" onClick={onClose}>
          close
        </button>
      </p>
    </section>
  );
}
