import { useState } from "preact/compat";
import { signing } from "../../../desk/fill-down";
import { cardCautions } from "../../../job/card-care";
import { type Form, fieldsOf } from "../../../job/forms";
import type { JobView } from "../../../job/view";
import { api } from "../api";
import { jobLink } from "../links";
import { here } from "../opened";
import { Cautions, Issues } from "../parts";
import { Base } from "./base";
import { ChartTable } from "./chart-table";
import { type CardDraft, useCard } from "./use-card";

/** Signing by the initials of whoever sits at the bench: one press, and a thing of its own. */
function Sign({ view, form, card }: { readonly view: JobView; readonly form: Form; readonly card: CardDraft }) {
  const signed = signing(view, form.id, new Date().toISOString());
  return signed.ok ? (
    <button type="button" className="plain small noprint" onClick={() => card.put(signed.value)}>
      {`Sign it: ${Object.values(signed.value).join("; ")}`}
    </button>
  ) : null;
}

/** Fields that stand by themselves above the table, each with what its limit says. */
const Fields = ({ view, form, card }: { readonly view: JobView; readonly form: Form; readonly card: CardDraft }) => (
  <div className="cardfields">
    {fieldsOf(form, card.before).map((f) => {
      const wrong = card.wrong.get(f);
      const said = card.said.get(f);
      const field = (
        <label key={f} className="field">
          {f}
          <input value={card.value(f)} aria-invalid={wrong !== undefined} onChange={(e) => card.put({ [f]: e.currentTarget.value })} />
          {wrong !== undefined && <span className="said wrong">Expected {wrong}</span>}
          {wrong === undefined && said?.verdict === "wrong" && <span className="said wrong">△ {said.says}</span>}
        </label>
      );
      if (f !== "Date and sign") return field;
      return (
        <div key={f} className="signed">
          {field}
          <Sign view={view} form={form} card={card} />
        </div>
      );
    })}
  </div>
);

const Below = ({ form, name, card }: { readonly form: Form; readonly name: string; readonly card: CardDraft }) => (
  <>
    <p className="noprint buttons">
      <button type="submit">Keep this card</button>
      {form.reads && (
        <a className="button plain" href={jobLink(name, "big", form.id)}>
          Large, with a keypad
        </a>
      )}
      <button type="button" className="plain" onClick={() => print()}>
        Print it
      </button>
      {here && (
        <>
          <a className="inrow" href={api.cardsUrl(name, form.id, false)}>
            As PDF
          </a>
          <a className="inrow" href={api.cardsUrl(name, form.id, true)}>
            Blank, for pencil
          </a>
        </>
      )}
    </p>
    <p role="status" className="quiet noprint">
      {card.told}
    </p>
    <Issues of={card.issues} />
  </>
);

/** One record card: typed in by the order it prints in; enter goes down a column, tab from cell to cell, and each cell answers as it is typed. */
export function Card({
  view,
  form,
  name,
  reload,
}: {
  readonly view: JobView;
  readonly form: Form;
  readonly name: string;
  readonly reload: () => void;
}) {
  const card = useCard(view, form, name, reload);
  const [row, setRow] = useState(1);
  return (
    <form
      className="card"
      onSubmit={(e) => {
        e.preventDefault();
        void card.keep();
      }}
    >
      <h2>{form.title}</h2>
      <p className="printonly">
        {name}. {view.set.title}
      </p>
      <Cautions of={cardCautions(view, form)} />
      <Fields view={view} form={form} card={card} />
      {form.columns && (
        <div className="chartwrap">
          <ChartTable view={view} form={form} name={name} card={card} at={setRow} />
          <Base view={view} form={form} draft={card.draft} row={row} pin={card.value(`row ${row}: Pin`)} />
        </div>
      )}
      <Below form={form} name={name} card={card} />
    </form>
  );
}
