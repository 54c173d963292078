import { forms } from "../../../job/forms";
import type { NextItem } from "../../../job/next";
import { workKinds } from "../../../job/ripple";
import { questionById } from "../../../sheets/asked";
import { jobLink } from "../links";
import { here } from "../opened";

export interface Lead {
  readonly href: string;
  readonly says: string;
}
/** What a step needs, opened by one tap: its card while something is still to be written, its questions, the work that it is. */
export function leadsOf(item: NextItem, name: string): readonly Lead[] {
  const cards = item.cards.map((id) => ({
    href: jobLink(name, "records", id),
    says: `Write: ${forms.find((f) => f.id === id)?.title ?? id}`,
  }));
  const asks = item.asks.map((id) => ({ href: jobLink(name, "sheet", id), says: questionById(id)?.question ?? id }));
  // a device at the chassis records no work
  const works = (here ? workKinds : [])
    .filter((w) => w.does === item.step)
    .slice(0, 3)
    .map((w) => ({ href: jobLink(name, "work", w.id), says: `Record: ${w.title}` }));
  return item.wanted.length > 0 || item.makes === "first" ? [...cards, ...asks, ...works] : [...asks, ...cards, ...works];
}

/** A step's leads: the first a button, the rest in a row. Following one, the page remembers the step and leads back to it. */
export const Leads = ({ item, name, most = 6 }: { readonly item: NextItem; readonly name: string; readonly most?: number }) => {
  const [first, ...rest] = leadsOf(item, name);
  const remember = () => sessionStorage.setItem(`fettle:doing:${name}`, JSON.stringify({ step: item.step, task: item.task }));
  if (!first) return null;
  return (
    <p className="leads">
      <a className="button" href={first.href} onClick={remember}>
        {first.says}
      </a>
      {rest.slice(0, most).map((l) => (
        <a key={l.href} href={l.href} onClick={remember}>
          {l.says}
        </a>
      ))}
    </p>
  );
};
