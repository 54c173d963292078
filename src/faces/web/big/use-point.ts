import { useDeferredValue, useMemo, useState } from "preact/compat";
import { cardIssues } from "../../../job/cards";
import type { Form } from "../../../job/forms";
import { type CellSaid, judgedCells } from "../../../job/rollups/card-judged";
import { type ReadPoint, readPoints } from "../../../job/rollups/read-points";
import type { JobView } from "../../../job/view";
import type { Issue } from "../../../units/issue";
import { api, Refused } from "../api";
import { useKept } from "../kept";
import { issuesOf } from "../task";

export interface AtPoint {
  readonly points: readonly ReadPoint[];
  readonly at: number;
  readonly point: ReadPoint | undefined;
  readonly go: (to: number) => void;
  /** the next point that is to be read again, after this one; undefined where none is */
  readonly nextAgain: number | undefined;
  readonly text: string;
  readonly type: (text: string) => void;
  /** what is typed, as it is written on the card */
  readonly written: string;
  readonly refused: string | undefined;
  readonly said: CellSaid | undefined;
  readonly keep: () => Promise<boolean>;
  readonly issues: readonly Issue[];
}

/** A figure as typed on the keypad, as the card takes it: bare where its heading shows the unit, else with the unit. */
function asWritten(form: Form, point: ReadPoint | undefined, text: string): string {
  const own = text.trim().replace(/−/g, "-");
  if (!point || !/^[+-]?[\d.,]+[kM]?$/.test(own) || point.unit === "") return own;
  const prefix = /[kM]$/.exec(own)?.[0];
  if (prefix) return `${own.slice(0, -1)} ${prefix}Ω`;
  return cardIssues(form.id, { [point.field]: own }).length === 0 ? own : `${own} ${point.unit}`;
}

/** One point of a card after another: what is typed there, judged as it is typed, and kept by one act that goes on to the next. */
export function useAtPoint(view: JobView, form: Form, name: string, reload: () => void): AtPoint {
  const points = useMemo(() => readPoints(view, form), [view, form]);
  const open = points.findIndex((p) => p.stands === "" || p.again);
  const first = Math.max(0, open);
  const [kept, setAt] = useKept(`big:${name}:${form.id}`, first);
  const at = Math.min(kept, Math.max(0, points.length - 1));
  const point = points.at(at);
  const [text, setText] = useState("");
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const written = asWritten(form, point, text);
  const lagging = useDeferredValue(written);
  const field = point?.field ?? "";
  const draft = useMemo(() => (lagging === "" ? {} : { [field]: lagging }), [field, lagging]);
  const refused = useMemo(() => cardIssues(form.id, draft)[0]?.expected, [form, draft]);
  const said = useMemo(() => (lagging === "" ? undefined : judgedCells(view, form, draft).get(field)), [view, form, draft, field, lagging]);
  const go = (to: number) => {
    setAt(Math.max(0, Math.min(points.length - 1, to)));
    setText("");
    setIssues([]);
  };
  const later = points.map((_, i) => (at + 1 + i) % Math.max(1, points.length));
  const nextAgain = later.find((i) => i !== at && points[i]?.again);
  const keep = async (): Promise<boolean> => {
    try {
      await api.append(name, [{ kind: "form", form: form.id, fields: { [field]: written } }]);
      reload();
    } catch (e) {
      // the same figure read again stands as it stood
      if (!(e instanceof Refused && e.issues.every((i) => i.code === "nothing-new"))) {
        setIssues(issuesOf(e));
        return false;
      }
    }
    // after work only what it can have changed is read again
    go(point?.again && nextAgain !== undefined ? nextAgain : at + 1);
    return true;
  };
  return { points, at, point, go, nextAgain, text, type: setText, written, refused, said, keep, issues };
}
