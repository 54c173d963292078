import { jobLink } from "../links";

interface Doing {
  readonly step: string;
  readonly task: string;
}
function doing(name: string): Doing | undefined {
  try {
    const text = sessionStorage.getItem(`fettle:doing:${name}`);
    return text === null ? undefined : (JSON.parse(text) as Doing);
  } catch {
    return undefined;
  }
}

/** The step that a page was opened for, and the way back to it. */
export function BackToStep({ name, page }: { readonly name: string; readonly page: string }) {
  const now = page === "" ? undefined : doing(name);
  return now ? (
    <p className="backto noprint">
      <a href={jobLink(name)}>‹ Back</a> to: {now.task}
    </p>
  ) : null;
}
