import type { Answer } from "../../ask/answered";
import { parseQuantity } from "../../units/parse";
import { printExact, printQuantity } from "../../units/print";

/** One input: value as written, what it means, where it comes from; another value to try, by typing or by dragging. */
export function InputRow({
  q,
  tried,
  setTried,
  drag,
}: {
  readonly q: Answer["quantities"][number] | Answer["absent"][number];
  readonly tried: string | undefined;
  readonly setTried: (v: string | undefined) => void;
  readonly drag: (on: boolean) => void;
}) {
  const r = tried === undefined ? undefined : parseQuantity(tried, q.dimension, q.path);
  const here = "quantity" in q ? q.quantity : undefined;
  const base = here?.origin === "tried" && r?.ok ? r.value.value : (here?.value ?? Number.NaN);
  const canDrag = base !== 0 && Number.isFinite(base);
  const id = `in-${q.path.replace(/\W/g, "-")}`;
  const wrong = r && !r.ok;
  return (
    <div className={`input ${here?.origin ?? "absent"}`}>
      <label htmlFor={id}>
        <span className="name">{q.meaning}</span>
        <span className="path">{q.path}</span>
      </label>
      <span className="value">{here ? printQuantity(here.value, here.spread, q.dimension) : "not read"}</span>
      <span className={`origin ${here?.origin ?? "absent"}`}>{here?.origin ?? ""}</span>
      <input
        id={id}
        value={tried ?? ""}
        placeholder="try another"
        onChange={(e) => setTried(e.target.value === "" ? undefined : e.target.value)}
        aria-invalid={wrong}
        aria-describedby={`${id}-said`}
      />
      {canDrag ? (
        <input
          type="range"
          aria-label={`Drag ${q.meaning}`}
          min={-50}
          max={50}
          step={1}
          defaultValue={0}
          onPointerDown={(e) => {
            e.currentTarget.dataset.base = String(base);
            drag(true);
          }}
          onPointerUp={(e) => {
            e.currentTarget.value = "0";
            delete e.currentTarget.dataset.base;
            drag(false);
          }}
          onKeyDown={(e) => {
            if (!e.currentTarget.dataset.base) e.currentTarget.dataset.base = String(base);
          }}
          onBlur={(e) => {
            e.currentTarget.value = "0";
            delete e.currentTarget.dataset.base;
          }}
          onChange={(e) =>
            setTried(
              printExact(
                Number((Number(e.currentTarget.dataset.base ?? base) * 2 ** (Number(e.currentTarget.value) / 25)).toPrecision(3)),
                q.dimension,
              ),
            )
          }
        />
      ) : (
        <span />
      )}
      <span id={`${id}-said`} className={wrong ? "said wrong" : "said"}>
        {wrong
          ? `Expected ${r.issues[0].expected}`
          : here === undefined || here.source === q.howMeasured
            ? `${q.howMeasured}.`
            : `${q.howMeasured}. ${here.source}.`}
      </span>
    </div>
  );
}
