import { useEffect, useRef } from "preact/hooks";
import type { Bench } from "./bench.ts";
import { useStore } from "./hooks.ts";
import { PageHead } from "./page-head.tsx";
import { ContactPart } from "./record-contact.tsx";
import { RecordPart } from "./record-sheet.tsx";

/** What is kept on paper: the record after the shoot, and small moves side by side. */
export function RecordPage({ bench }: { readonly bench: Bench }) {
  const { plan } = useStore(bench.session);
  const title = useRef<HTMLHeadingElement>(null);
  useEffect(() => title.current?.focus(), []);
  return (
    <main class="record">
      <PageHead bench={bench} heading="Record" title={title} about={plan.title} />
      <RecordPart bench={bench} />
      <ContactPart bench={bench} />
    </main>
  );
}
