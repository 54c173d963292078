import { html } from "hono/html";
import { sayKept, sayPast } from "../../../desk/keep-for";
import type { Listed, Retention } from "../../../store/kept/kept";
import { type Piece, sending } from "./plain-page";

const hidden = (name: string, value: string): Piece => html`<input type="hidden" name="${name}" value="${value}" />`;

function pastPart({ past, code }: Listed): Piece {
  if (past.length === 0) return html`<p>Nothing is past its time.</p>`;
  return html`<p>Past its time, and still here:</p>
    <ul>${past.map((p) => html`<li>${sayPast(p)}</li>`)}</ul>
    <p>A job worth keeping is exported first, or its kind kept for longer. Earlier backups and exports still hold what is removed here.</p>
    ${sending("/people/clear-out", "Remove all of this for good", hidden("confirm", code), true)}`;
}

/** What the shop keeps, how long, and what of it is past its time: nothing goes by itself. */
export async function keptPart(retention: Retention): Promise<Piece> {
  const [spans, listed] = [await retention.spans(), await retention.list()];
  const rows = sayKept(spans);
  return html`<h2>What is kept, and how long</h2>
    <p>Everything is kept for ever unless you say otherwise here; nothing goes by itself. The trail of what was done is always kept.</p>
    <ul class="bare people">${rows.map(([, is, time]) => html`<li><p><strong>${is}</strong>: ${time}.</p></li>`)}</ul>
    ${sending("/people/keep", "Keep it so long", [
      html`<label class="field">What<select name="kind">${rows.map(([kind, is]) => html`<option value="${kind}">${is}</option>`)}</select></label>`,
      html`<label class="field">For how long after anything was last done with it<input name="time" type="text" value="for ever" autocomplete="off" required /></label>`,
      html`<p>Such as: 10 years, 18 months, 90 days, for ever.</p>`,
    ])}
    ${pastPart(listed)}`;
}
