import { writingOn } from "../job/cards";
import { formById, forms } from "../job/forms";
import { placeIn } from "../job/place-in";
import { readPoints } from "../job/rollups/read-points";
import { sittingAt } from "../job/sitting";
import type { JobView } from "../job/view";
import { bad, good, type Read } from "../units/issue";
import { idsOf, oneOf } from "../units/nearest";

type Fields = Readonly<Record<string, string>>;
/**
 * Readings typed down the column of a card, each at its point: after work those that are to be read again, else those that nobody has read.
 *
 * @param view the job
 * @param card its id
 * @param said readings with spaces between, a dash for one that is left out; nothing where none are said
 * @returns texts by field
 */
export function readDown(view: JobView, card: string, said: string): Read<Fields> {
  const texts = said.split(/[\s;]+/).filter((t) => t !== "");
  if (texts.length === 0) return good({});
  const form = formById(card);
  if (!form) return bad("card", "no-card", card, oneOf(card, idsOf(forms)));
  const points = readPoints(view, form).filter((p) => /^row \d+: /.test(p.field));
  const again = points.filter((p) => p.again);
  const open = again.length > 0 ? again : points.filter((p) => p.stands === "");
  if (texts.length > open.length)
    return bad(
      "--down",
      "too-many",
      `${texts.length} readings`,
      open.length === 0 ? "none: every point of the card is read" : `${open.length} at most: ${open.map((p) => p.at).join("; ")}`,
    );
  return good(Object.fromEntries(texts.flatMap((t, i) => (/^[-–—]$/.test(t) ? [] : [[open[i].field, t]]))));
}
/** What is said of a tester once holds for the cards of the same sitting: another day has another tester, or its own doubt. */
const tester = "Tester used";
/**
 * The signature on a card by whoever sits at the bench: an act of its own, never done by the way.
 *
 * @param view the job
 * @param card its id
 * @param now ISO 8601
 * @returns the card's field for it, with the day and the initials, and the tester where only another card of this sitting names it
 */
export function signing(view: JobView, card: string, now: string): Read<Fields> {
  const name = formById(card)?.fields.find((f) => f === "Date and sign");
  if (name === undefined) return bad("--sign", "no-field", card, "a card that is signed: safety-in, first-power or safety-out");
  const sitting = sittingAt(view, now);
  if (!sitting) return bad("--sign", "nobody-sits", "", "somebody who sits at the bench (fettle sitting), or the day and the name typed");
  // the tester is no reading: whoever signs says with it that it is the one named before, where the card names none
  const satDown = placeIn(view.inForce, sitting.id);
  const saidNow = (id: string): boolean => placeIn(view.inForce, id) > satDown;
  const named = ["safety-in", "first-power", "safety-out"].flatMap((c) => {
    const w = writingOn(view, c).get(tester);
    return w && saidNow(w.entry) ? [w.text] : [];
  });
  const same: Fields = writingOn(view, card).has(tester) || named.length === 0 ? {} : { [tester]: named[named.length - 1] };
  return good({ [name]: `${now.slice(0, 10)}, ${sitting.initials}`, ...same });
}
