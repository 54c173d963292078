/** What a thumb types with: the keys that the next figure may need, and no more. */
export function Keypad({
  unit,
  put,
  back,
}: {
  /** unit of a bare figure; ohms have keys for thousands and millions */
  readonly unit: string;
  readonly put: (key: string) => void;
  readonly back: () => void;
}) {
  const prefixes = unit.endsWith("Ω") ? ["k", "M"] : [];
  const key = (k: string, says = k, more = "") => (
    <button type="button" key={k} className={`key ${more}`} aria-label={says} onClick={() => put(k)}>
      {k}
    </button>
  );
  return (
    <fieldset className="keypad" aria-label="Keypad">
      {["7", "8", "9"].map((k) => key(k))}
      <button type="button" className={prefixes.length > 0 ? "key" : "key twice"} aria-label="Delete the last digit" onClick={back}>
        ⌫
      </button>
      {["4", "5", "6"].map((k) => key(k))}
      {prefixes[0] && key(prefixes[0], "kilohms")}
      {["1", "2", "3"].map((k) => key(k))}
      {prefixes[1] ? key(prefixes[1], "megohms", "twice") : key("−", "minus", "twice")}
      {key("0", "0", "wide0")}
      {key(".", "point")}
    </fieldset>
  );
}
