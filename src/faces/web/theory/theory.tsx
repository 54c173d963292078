import { useState } from "preact/compat";
import type { Issue } from "../../../units/issue";
import { Issues } from "../parts";
import { issuesOf } from "../task";

/** How an answer is worked out: fetched and typeset when it is opened. */
export function Theory({ id }: { readonly id: string }) {
  const [html, setHtml] = useState("");
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const open = async () => {
    if (html !== "") return;
    try {
      const [{ theoryHtml }, page] = await Promise.all([import("./formulas"), import(`../../../sheets/${id}/theory.md`)]);
      setHtml(theoryHtml(page.default));
    } catch (e) {
      setIssues(issuesOf(e));
    }
  };
  return (
    <details className="theory" onToggle={(e) => e.currentTarget.open && void open()}>
      <summary>How this is worked out</summary>
      <Issues of={issues} />
      {/* biome-ignore lint/security/noDangerouslySetInnerHtml: our own page of theory, part of the program */}
      <div dangerouslySetInnerHTML={{ __html: html }} />
    </details>
  );
}
