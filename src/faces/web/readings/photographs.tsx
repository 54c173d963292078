import { ofKind } from "../../../job/place-in";
import type { JobView } from "../../../job/view";
import { dayInWords } from "../../../units/day";
import { api } from "../api";
import { CantWait } from "../cant-wait";
import { Panel } from "../parts";
import { TaskLine, useTask } from "../task";

/** Photographs: shrunk here to what a record needs, then kept with the job. */
export function Photographs({ view, name, reload }: { readonly view: JobView; readonly name: string; readonly reload: () => void }) {
  const task = useTask();
  const add = (files: FileList | null) =>
    task.run("Keeping photographs", async (signal) => {
      const names: string[] = [];
      for (const f of files ?? []) {
        await api.attach(name, "", await shrunk(f), signal);
        names.push(f.name);
        reload();
      }
      return names.length === 0 ? undefined : `Kept ${names.join(", ")}.`;
    });
  const pictures = ofKind(view.inForce, "attachment");
  return (
    <Panel title="Photographs" id="photos">
      <label className="field">
        Add photographs (JPEG or PNG)
        <input type="file" accept="image/jpeg,image/png" multiple onChange={(e) => void add(e.currentTarget.files)} />
      </label>
      <CantWait act="attach" />
      <TaskLine of={task} />
      <ul className="photos">
        {pictures.map((p) => (
          <li key={p.id}>
            <a href={api.fileUrl(name, p.hash)}>
              <img src={api.fileUrl(name, p.hash)} alt={`${p.name}, ${dayInWords(p.at)}`} loading="lazy" />
            </a>
          </li>
        ))}
      </ul>
    </Panel>
  );
}

const longestEdgePx = 2000;
/** A photograph as small as a record needs. */
export async function shrunk(f: File): Promise<File> {
  const bitmap = await createImageBitmap(f).catch(() => undefined);
  if (!bitmap || Math.max(bitmap.width, bitmap.height) <= longestEdgePx) return f;
  const scale = longestEdgePx / Math.max(bitmap.width, bitmap.height);
  const canvas = new OffscreenCanvas(Math.round(bitmap.width * scale), Math.round(bitmap.height * scale));
  canvas.getContext("2d")?.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  const blob = await canvas.convertToBlob({ type: "image/jpeg", quality: 0.85 });
  return blob.size < f.size ? new File([blob], f.name.replace(/\.png$/i, ".jpg"), { type: "image/jpeg" }) : f;
}
