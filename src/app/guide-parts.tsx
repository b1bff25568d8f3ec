/** The parts of a page of the guide on screen. */
import type { ComponentChildren } from "preact";
import { pictureUrl } from "./guide-pages.ts";
import type { Block, Inline } from "./guide-text.ts";

/** Goes to a page of the guide and a heading of it. */
export type Go = (page: string, part: string) => void;

export function Blocks({ blocks, go }: { blocks: readonly Block[]; go: Go }) {
  return (
    <>
      {blocks.map((block, i) => (
        <BlockView key={i} block={block} go={go} />
      ))}
    </>
  );
}

function BlockView({ block, go }: { block: Block; go: Go }) {
  switch (block.kind) {
    case "heading":
      return (
        <h2 id={block.id} tabIndex={-1}>
          {block.text}
        </h2>
      );
    case "paragraph":
      return (
        <p>
          <Parts parts={block.parts} go={go} />
        </p>
      );
    case "list": {
      const items = block.items.map((parts, i) => (
        <li key={i}>
          <Parts parts={parts} go={go} />
        </li>
      ));
      return block.isOrdered ? <ol>{items}</ol> : <ul>{items}</ul>;
    }
    case "table":
      return <Table block={block} go={go} />;
    case "code":
      return (
        <pre>
          <code>{block.text}</code>
        </pre>
      );
    case "picture": {
      const url = pictureUrl(block.file);
      return (
        <figure>
          {url !== null && <img src={url} alt={block.says} />}
          <figcaption class="quiet">{block.says}</figcaption>
        </figure>
      );
    }
  }
}

function Table({ block, go }: { block: Extract<Block, { kind: "table" }>; go: Go }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a wide table is scrolled by keys
    <section class="guide-table" tabIndex={0} aria-label={block.head.map(plain).join(", ")}>
      <table>
        <thead>
          <tr>
            {block.head.map((parts, i) => (
              <th key={i} scope="col">
                <Parts parts={parts} go={go} />
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {block.rows.map((row, i) => (
            <tr key={i}>
              {row.map((parts, k) => (
                <td key={k} data-head={plain(block.head[k] ?? [])}>
                  <Parts parts={parts} go={go} />
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

const plain = (parts: readonly Inline[]) => parts.map(({ text }) => text).join("");

function Parts({ parts, go }: { parts: readonly Inline[]; go: Go }): ComponentChildren {
  return parts.map((part, i) => <Part key={i} part={part} go={go} />);
}

const PAGE = /^(?:([\w-]+)\.md)?(?:#(.+))?$/;

function Part({ part, go }: { part: Inline; go: Go }) {
  switch (part.kind) {
    case "text":
      return <>{part.text}</>;
    case "strong":
      return <strong>{part.text}</strong>;
    case "code":
      return <code>{part.text}</code>;
    case "link":
      return <Link link={part} go={go} />;
  }
}

function Link({ link, go }: { link: Extract<Inline, { kind: "link" }>; go: Go }) {
  const page = PAGE.exec(link.to);
  // what lies outside the guide is no part of the page: it is named, for whoever has the folder
  if (page === null)
    return (
      <>
        {link.text} (<code>{link.to.replace(/^(\.\.\/)+/, "")}</code>)
      </>
    );
  return (
    <button type="button" onClick={() => go(page[1] ?? "", page[2] ?? "")}>
      {link.text}
    </button>
  );
}
