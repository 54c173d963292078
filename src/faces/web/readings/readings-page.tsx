import type { JobView } from "../../../job/view";
import { here } from "../opened";
import { Changed } from "../set/changed";
import { Photographs } from "./photographs";
import { ReadFile } from "./read-file";
import { ReadingList } from "./reading-list";

/** Files in, what was read, photographs; and what was recorded, each with the way to take it back. */
export const ReadingsPage = ({ view, name, reload }: { readonly view: JobView; readonly name: string; readonly reload: () => void }) => (
  <main className="two">
    <div>
      <h1>Readings</h1>
      <ReadFile view={view} name={name} reload={reload} />
      <ReadingList view={view} name={name} />
      {here && <Photographs view={view} name={name} reload={reload} />}
    </div>
    <aside>
      <Changed view={view} name={name} reload={reload} />
    </aside>
  </main>
);
